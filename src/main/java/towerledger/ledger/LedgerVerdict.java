package towerledger.ledger;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.balance.CauseOpinion;
import towerledger.balance.Judgement;

/**
 * The verdict of a ledger row.
 *
 * @param flagged something is wrong here, waste or not
 * @param waste water is being wasted
 * @param likeliest likeliest cause
 * @param probability its probability, 0–1
 * @param second second cause; null when only one was weighed
 * @param secondProbability its probability
 * @param causeSet causes the evidence cannot separate, likeliest first
 * @param detectedAt instant of the last fact the verdict needed; null when not flagged
 */
public record LedgerVerdict(
    boolean flagged,
    boolean waste,
    Cause likeliest,
    double probability,
    @Nullable Cause second,
    @Nullable Double secondProbability,
    List<Cause> causeSet,
    @Nullable Instant detectedAt) {

  public LedgerVerdict {
    causeSet = List.copyOf(causeSet);
  }

  /** Whether evidence is missing, so that nothing can be told. */
  public boolean isMissing() {
    return likeliest == Cause.MISSING_DATA;
  }

  static LedgerVerdict of(Judgement judgement) {
    CauseOpinion likeliest = judgement.likeliest();
    CauseOpinion second = judgement.second().orElse(null);
    return new LedgerVerdict(
        judgement.flagged(),
        judgement.waste(),
        likeliest.cause(),
        likeliest.probability(),
        second == null ? null : second.cause(),
        second == null ? null : second.probability(),
        judgement.causeSet(),
        judgement.detectedAt().orElse(null));
  }
}
