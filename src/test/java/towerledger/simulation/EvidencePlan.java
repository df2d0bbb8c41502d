package towerledger.simulation;

import org.jspecify.annotations.Nullable;

/**
 * How well a system is watched.
 *
 * @param heat what is known of the heat
 * @param heatBias lasting factor on the heat evidence
 * @param heatScatter standard deviation of its logarithm from one row to the next
 * @param readingDays days between register readings
 * @param missedPart part of the readings that nobody took
 * @param dayOnlyPart part of the readings that carry a day but no time
 * @param meter the makeup meter, or null without one
 * @param bleedMeter whether the bleed is metered
 * @param sampleDays days between water samples
 * @param samplesFromDisplay whether the basin figure is copied from the controller's display
 * @param pressureDays days between pressure readings, 0 for none
 * @param visitDays days between a technician's visits
 * @param intervals a logger's span on the makeup meter, or null
 */
public record EvidencePlan(
    HeatEvidence heat,
    double heatBias,
    double heatScatter,
    int readingDays,
    double missedPart,
    double dayOnlyPart,
    @Nullable MeterPlan meter,
    boolean bleedMeter,
    int sampleDays,
    boolean samplesFromDisplay,
    int pressureDays,
    int visitDays,
    @Nullable IntervalPlan intervals) {

  /** Heat evidence and its grade. */
  public enum HeatEvidence {
    HOURLY_TEMPERATURES('A'),
    DAILY_HEAT('A'),
    DAILY_TON_HOURS('A'),
    WEEKLY_TON_HOURS('B'),
    DAILY_CHILLER_KWH('B'),
    MONTHLY_CHILLER_KWH('B'),
    MONTHLY_RUNNING_HOURS('C'),
    NONE('D');

    private final char grade;

    HeatEvidence(char grade) {
      this.grade = grade;
    }

    public char grade() {
      return grade;
    }
  }

  /**
   * The makeup meter.
   *
   * @param scale factor between what passes and what registers, when new
   * @param yearlyDrift change of that factor in a year
   * @param startRegister register at the start of the record
   * @param swapHour hour at which it is swapped for a new one, or -1
   */
  public record MeterPlan(
      String unit,
      double multiplier,
      int digits,
      int decimals,
      double accuracyPercent,
      double sizeIn,
      String type,
      double scale,
      double yearlyDrift,
      double startRegister,
      int swapHour) {}

  /** A logger's span, in hours of the grid. */
  public record IntervalPlan(int fromHour, int toHour, int minutes) {}
}
