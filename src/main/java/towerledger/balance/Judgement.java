package towerledger.balance;

import java.time.Instant;
import java.time.YearMonth;
import java.util.List;
import java.util.Optional;

/**
 * What the evidence known at the close of a month says about it.
 *
 * @param flagged whether something is wrong here, waste or not
 * @param waste whether water is being wasted
 * @param opinions every cause weighed, likeliest first; the probabilities add up to 1
 * @param causeSet the causes that the evidence cannot separate, likeliest first; not empty
 * @param detectedAt instant of the last fact that the verdict needed; empty when not flagged
 * @param onset first month of the fault as now seen; empty when not flagged
 * @param onsetAt begin of the fault to the hour, where interval data show it
 * @param lossSinceOnset extra water drawn from the onset to the end of this month
 */
public record Judgement(
    boolean flagged,
    boolean waste,
    List<CauseOpinion> opinions,
    List<Cause> causeSet,
    Optional<Instant> detectedAt,
    Optional<YearMonth> onset,
    Optional<Instant> onsetAt,
    Optional<VolumeEstimate> lossSinceOnset) {

  public Judgement {
    opinions = List.copyOf(opinions);
    causeSet = List.copyOf(causeSet);
    if (opinions.isEmpty() || causeSet.isEmpty()) {
      throw new IllegalArgumentException("a judgement names at least one cause");
    }
    if (waste && !flagged) {
      throw new IllegalArgumentException("a month that wastes water is flagged");
    }
  }

  /** The likeliest cause with its probability. */
  public CauseOpinion likeliest() {
    return opinions.get(0);
  }

  /** The second cause, if more than one was weighed. */
  public Optional<CauseOpinion> second() {
    return opinions.size() > 1 ? Optional.of(opinions.get(1)) : Optional.empty();
  }
}
