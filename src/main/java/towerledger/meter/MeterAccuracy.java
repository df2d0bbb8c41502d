package towerledger.meter;

import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.quantity.Flow;
import towerledger.quantity.Units;
import towerledger.site.MeterDetails;
import towerledger.site.MeterType;

/**
 * How far a water meter may be wrong: its class in normal flow, and the flow below which it may
 * miss water altogether.
 *
 * <p>Sources. Minimum and maximum normal test flows: Code of Maryland Regulations 20.70.06.03,
 * following the American Water Works Association's meter standards, for 5/8 to 6 inch. Limits in
 * normal flow: displacement 98.5–101.5 % (AWWA C700, quoted in US Navy MO-221); turbine class II
 * 98.5–101.5 % (C701) and compound 97–103 % (C702), both from memory. Minimum flow of turbine
 * meters (class II: 2 in 4, 3 in 8, 4 in 15, 6 in 30 gpm): C701, from memory. Magnetic and
 * ultrasonic meters: 1 % in normal flow and the displacement table's minimum flow are common
 * practice on the safe side, no source; a meter's own accuracy_percent goes before the class.
 *
 * @param fraction limit of error in normal flow as a fraction, if it or the type is known
 * @param leastFlowLitresPerSecond flow from which on the class holds, if the size is known
 * @param greatestFlowLitresPerSecond highest normal flow, if the size is known
 */
public record MeterAccuracy(
    OptionalDouble fraction,
    OptionalDouble leastFlowLitresPerSecond,
    OptionalDouble greatestFlowLitresPerSecond) {

  /** Inches, minimum test flow, maximum normal flow (US gpm). */
  private static final double[][] TEST_FLOWS = {
    {0.625, 0.25, 20},
    {0.75, 0.5, 30},
    {1, 0.75, 50},
    {1.5, 1.5, 100},
    {2, 2, 160},
    {3, 4, 300},
    {4, 7, 500},
    {6, 12, 1000}
  };

  /** Inches and minimum test flow of turbine meters (US gpm). */
  private static final double[][] TURBINE_FLOWS = {{2, 4}, {3, 8}, {4, 15}, {6, 30}};

  /** A size counts as the nominal one when it is within this share of it. */
  private static final double SAME_SIZE = 0.08;

  /** The accuracy of a meter on file. */
  public static MeterAccuracy of(MeterDetails meter) {
    return of(meter.type(), meter.sizeMm(), meter.accuracyPercent());
  }

  /**
   * The accuracy of a meter.
   *
   * @param type how it measures, if known
   * @param sizeMm nominal size in mm, if known; sizes that are not in the tables give no flows
   * @param accuracyPercent its own class in percent, if known; goes before that of the type
   */
  static MeterAccuracy of(
      @Nullable MeterType type, @Nullable Double sizeMm, @Nullable Double accuracyPercent) {
    OptionalDouble fraction =
        accuracyPercent != null
            ? OptionalDouble.of(accuracyPercent / 100)
            : type == null ? OptionalDouble.empty() : OptionalDouble.of(classOf(type));
    if (sizeMm == null) {
      return new MeterAccuracy(fraction, OptionalDouble.empty(), OptionalDouble.empty());
    }
    OptionalDouble least = flow(TEST_FLOWS, sizeMm, 1);
    OptionalDouble ofTurbine = flow(TURBINE_FLOWS, sizeMm, 1);
    return new MeterAccuracy(
        fraction,
        type == MeterType.TURBINE && ofTurbine.isPresent() ? ofTurbine : least,
        flow(TEST_FLOWS, sizeMm, 2));
  }

  private static double classOf(MeterType type) {
    return switch (type) {
      case DISPLACEMENT, TURBINE -> 0.015;
      case COMPOUND -> 0.03;
      case MAGNETIC, ULTRASONIC -> 0.01;
    };
  }

  private static OptionalDouble flow(double[][] table, double sizeMm, int column) {
    double inches = sizeMm / Units.MILLIMETRES_PER_INCH;
    for (double[] row : table) {
      if (Math.abs(inches - row[0]) <= SAME_SIZE * row[0]) {
        return OptionalDouble.of(Flow.ofUsGallonsPerMinute(row[column]).litresPerSecond());
      }
    }
    return OptionalDouble.empty();
  }

  /**
   * The most water that may have passed uncounted below the least flow, from interval volumes: in
   * every interval whose mean flow is below it, the difference to it. Empty when the least flow is
   * not known. The water really missed lies anywhere between 0 and this; as a rectangular
   * distribution its standard uncertainty is this over √12 (JCGM 100:2008, 4.3.7).
   */
  public OptionalDouble mostUncountedLitres(IntervalVolumes intervals) {
    if (leastFlowLitresPerSecond.isEmpty()) {
      return OptionalDouble.empty();
    }
    double most = 0;
    for (int i = 0; i < intervals.size(); i++) {
      double least = leastFlowLitresPerSecond.getAsDouble() * intervals.minutes(i) * 60;
      most += Math.max(0, least - intervals.litres(i));
    }
    return OptionalDouble.of(most);
  }
}
