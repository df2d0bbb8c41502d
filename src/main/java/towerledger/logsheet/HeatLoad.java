package towerledger.logsheet;

import java.util.OptionalDouble;
import towerledger.balance.facts.HeatEvidence;
import towerledger.quantity.Heat;
import towerledger.quantity.Span;

/**
 * A row of the heat log in the columns of its table, of which exactly one group is given.
 *
 * @param span the span it covers
 * @param heatRejectedGj metered heat rejected, GJ
 * @param chilledWaterKwh chilled-water heat, kWh thermal
 * @param kwPerTon electricity of the chiller per ton
 * @param chillerKwh electricity of the chiller, kWh
 * @param runningHours hours of running
 * @param averageLoadPercent mean load over the running hours, percent of nominal
 * @param hotWaterC hot water, mean over the span
 * @param coldWaterC cold water, mean over the span
 * @param waterFlowLitresPerSecond circulation
 * @param errorPercent one standard deviation in percent, if known
 */
public record HeatLoad(
    Span span,
    OptionalDouble heatRejectedGj,
    OptionalDouble chilledWaterKwh,
    OptionalDouble kwPerTon,
    OptionalDouble chillerKwh,
    OptionalDouble runningHours,
    OptionalDouble averageLoadPercent,
    OptionalDouble hotWaterC,
    OptionalDouble coldWaterC,
    OptionalDouble waterFlowLitresPerSecond,
    OptionalDouble errorPercent) {

  /**
   * How far hot water may read below cold, K: two sensors that disagree while the tower stands or
   * hardly works; a judgement.
   */
  private static final double SENSORS_APART_K = 1;

  /**
   * Whether hot water reads below cold by more than two sensors may, while water flows.
   *
   * @param hotC hot water, °C
   * @param coldC cold water, °C
   * @param flow circulation, in any unit
   */
  public static boolean exchanged(double hotC, double coldC, double flow) {
    return flow > 0 && coldC - hotC > SENSORS_APART_K;
  }

  /**
   * The evidence that the row amounts to. Hot water that reads a little below cold, or at all while
   * nothing flows, gave off no heat.
   *
   * @throws IllegalArgumentException when no group or more than one is given, a group is not
   *     complete, or a value cannot be
   */
  public HeatEvidence evidence() {
    int groups =
        count(heatRejectedGj)
            + count(chilledWaterKwh)
            + count(chillerKwh)
            + (runningHours.isPresent() || averageLoadPercent.isPresent() ? 1 : 0)
            + (hotWaterC.isPresent()
                    || coldWaterC.isPresent()
                    || waterFlowLitresPerSecond.isPresent()
                ? 1
                : 0);
    if (groups != 1) {
      throw new IllegalArgumentException(
          "heat load from %s gives %d kinds of evidence; give one: heat rejected, chilled-water heat, chiller electricity with kw_per_ton, running hours with average load, or hot and cold water with flow"
              .formatted(span.startInclusive(), groups));
    }
    OptionalDouble error = fraction(errorPercent);
    if (heatRejectedGj.isPresent()) {
      return new HeatEvidence.HeatRejected(
          span, Heat.ofGigajoules(heatRejectedGj.getAsDouble()).joules(), error);
    }
    if (chilledWaterKwh.isPresent()) {
      return new HeatEvidence.ChilledWater(
          span, Heat.ofKilowattHours(chilledWaterKwh.getAsDouble()).joules(), kwPerTon, error);
    }
    if (chillerKwh.isPresent()) {
      return new HeatEvidence.ChillerElectricity(
          span,
          Heat.ofKilowattHours(chillerKwh.getAsDouble()).joules(),
          need("kw_per_ton", kwPerTon),
          error);
    }
    if (runningHours.isPresent() || averageLoadPercent.isPresent()) {
      return new HeatEvidence.RunningHours(
          span,
          need("running_hours", runningHours),
          need("average_load_percent", averageLoadPercent) / 100,
          error);
    }
    double hot = need("hot_water", hotWaterC);
    double cold = need("cold_water", coldWaterC);
    double flow = need("water_flow", waterFlowLitresPerSecond);
    return new HeatEvidence.WaterTemperatures(
        span,
        exchanged(hot, cold, flow) ? hot : Math.max(hot, cold),
        cold,
        flow * kilogramsPerLitre((hot + cold) / 2),
        error);
  }

  private static int count(OptionalDouble value) {
    return value.isPresent() ? 1 : 0;
  }

  private static OptionalDouble fraction(OptionalDouble percent) {
    return percent.isPresent() ? OptionalDouble.of(percent.getAsDouble() / 100) : percent;
  }

  private double need(String column, OptionalDouble value) {
    if (value.isEmpty()) {
      throw new IllegalArgumentException(
          "heat load from %s misses %s, without which the rest of its group says nothing"
              .formatted(span.startInclusive(), column));
    }
    return value.getAsDouble();
  }

  /**
   * Density of water, kg/L, 0 to 100 °C.
   *
   * <p>Source: McCutcheon, Martin and Barnwood (1993), Handbook of Hydrology, equation for pure
   * water.
   */
  static double kilogramsPerLitre(double celsius) {
    return 1
        - (celsius + 288.9414) * Math.pow(celsius - 3.9863, 2) / (508_929.2 * (celsius + 68.12963));
  }
}
