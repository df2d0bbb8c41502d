package towerledger.simulation;

import java.time.Instant;
import java.time.YearMonth;

/**
 * What really happened in a calendar month, from a run and its sound twin. Litres.
 *
 * @param month calendar month in the site's zone
 * @param makeup what the makeup pipe carried
 * @param shown what a perfect register with the planted meter fault counted
 * @param sound what the sound twin's pipe carried
 * @param evaporation water evaporated
 * @param grossLoss water that left through the fault, including what only displaced bleed
 */
public record MonthTruth(
    YearMonth month,
    double makeup,
    double shown,
    double sound,
    double evaporation,
    double grossLoss) {

  /** Extra water that the fault drew; negative when it saved some. */
  public double netEffect() {
    return makeup - sound;
  }

  /**
   * Whether a watchful engineer should call this month wasteful: at least a twentieth of makeup.
   */
  public boolean positive() {
    return makeup > 0 && netEffect() >= 0.05 * makeup;
  }

  /** Sums a month of a run and its twin. */
  public static MonthTruth of(WaterRun run, WaterRun twin, YearMonth month) {
    Operation operation = run.operation();
    HourGrid grid = operation.hours().grid();
    Instant start = month.atDay(1).atStartOfDay(operation.hours().zone()).toInstant();
    Instant end = month.plusMonths(1).atDay(1).atStartOfDay(operation.hours().zone()).toInstant();
    double makeup = 0;
    double shown = 0;
    double sound = 0;
    double evaporation = 0;
    double over = 0;
    double fresh = 0;
    double drift = 0;
    double bleed = 0;
    for (int h = grid.indexOf(start); h < grid.indexOf(end); h++) {
      makeup += run.makeupL(h);
      shown += run.shownMakeupL(h);
      sound += twin.makeupL(h);
      evaporation += operation.evaporationL(h);
      over += run.overflowL(h) - twin.overflowL(h);
      fresh += run.freshLossL(h) + run.otherUseL(h) - twin.freshLossL(h) - twin.otherUseL(h);
      drift += run.driftL(h) - twin.driftL(h);
      bleed += run.bleedL(h) - twin.bleedL(h);
    }
    boolean bleedFault =
        run.faults().stream()
            .anyMatch(
                f ->
                    f.cause() == PlantedCause.BLOWDOWN_STUCK_OPEN
                        || f.cause() == PlantedCause.LOW_CYCLES
                        || f.cause() == PlantedCause.CONDUCTIVITY_ERROR);
    double gross =
        Math.max(0, over)
            + Math.max(0, fresh)
            + Math.max(0, drift)
            + (bleedFault ? Math.max(0, bleed) : 0);
    return new MonthTruth(month, makeup, shown, sound, evaporation, gross);
  }
}
