package towerledger.ledger;

import java.time.Instant;
import java.time.YearMonth;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.balance.BudgetLine;
import towerledger.balance.CauseOpinion;
import towerledger.balance.MonthVerdict;
import towerledger.balance.VolumeEstimate;
import towerledger.balance.WorkingStep;

/**
 * The whole derivation of a month as it is kept with its revision: everything that 'show the
 * working' shows beside the figures themselves.
 *
 * @param steps the water, step by step
 * @param budget uncertainty budget of the unaccounted water, largest contribution first
 * @param opinions every cause weighed, likeliest first
 * @param assumptions what was assumed for want of knowledge
 * @param whatToAdd facts whose absence limits the verdict, most useful first
 * @param onset first month of the fault as then seen; null when not flagged
 * @param onsetAt begin of the fault to the hour, where interval data show it
 * @param lossSinceOnset extra water drawn since; null when not flagged
 * @param pricing how the money was worked out, line by line
 * @param evaporation evaporated water with its own 95 % bounds; null where it could not be
 *     modelled, and in derivations kept before it was
 */
public record MonthWorking(
    List<WorkingStep> steps,
    List<BudgetLine> budget,
    List<CauseOpinion> opinions,
    List<String> assumptions,
    List<String> whatToAdd,
    @Nullable YearMonth onset,
    @Nullable Instant onsetAt,
    @Nullable VolumeEstimate lossSinceOnset,
    List<String> pricing,
    @Nullable VolumeEstimate evaporation) {

  static MonthWorking of(MonthVerdict verdict, List<String> pricing) {
    return new MonthWorking(
        verdict.working(),
        verdict.budget(),
        verdict.judgement().opinions(),
        verdict.assumptions(),
        verdict.whatToAdd(),
        verdict.judgement().onset().orElse(null),
        verdict.judgement().onsetAt().orElse(null),
        verdict.judgement().lossSinceOnset().orElse(null),
        pricing,
        verdict.water().evaporation().orElse(null));
  }

  /** Half of the 95 % interval of the evaporation, L; null where it is not kept. */
  @Nullable Double evaporationHalf() {
    return evaporation == null ? null : evaporation.halfWidthLitres();
  }
}
