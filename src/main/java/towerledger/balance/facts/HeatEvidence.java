package towerledger.balance.facts;

import java.util.OptionalDouble;
import towerledger.quantity.Span;

/** What is known about the heat rejected over a span, in the form in which it was recorded. */
public sealed interface HeatEvidence {

  /** The span that the evidence covers. */
  Span span();

  /** One standard deviation as a fraction of the heat, if whoever recorded it knew. */
  OptionalDouble errorFraction();

  /**
   * Metered heat rejected by the towers.
   *
   * @param joules heat over the span, not negative
   */
  record HeatRejected(Span span, double joules, OptionalDouble errorFraction)
      implements HeatEvidence {
    public HeatRejected {
      Plausible.notNegative("heat rejected", joules, "J");
    }
  }

  /**
   * Chilled-water heat; the compressor's electricity or the driving heat comes on top.
   *
   * @param joules chilled-water heat over the span, not negative
   * @param kwPerTon electricity per cooling of the chiller, if known
   */
  record ChilledWater(
      Span span, double joules, OptionalDouble kwPerTon, OptionalDouble errorFraction)
      implements HeatEvidence {
    public ChilledWater {
      Plausible.notNegative("chilled-water heat", joules, "J");
      Plausible.positive("kW per ton", kwPerTon, "kW/ton");
    }
  }

  /**
   * Electricity taken by the chillers.
   *
   * @param joules electricity over the span, not negative
   * @param kwPerTon electricity per cooling, above 0
   */
  record ChillerElectricity(Span span, double joules, double kwPerTon, OptionalDouble errorFraction)
      implements HeatEvidence {
    public ChillerElectricity {
      Plausible.notNegative("chiller electricity", joules, "J");
      Plausible.positive("kW per ton", kwPerTon, "kW/ton");
    }
  }

  /**
   * Hours of running and the average load over them.
   *
   * @param hours running hours within the span, not negative
   * @param loadFraction average load over the running hours, as a fraction of nominal
   */
  record RunningHours(Span span, double hours, double loadFraction, OptionalDouble errorFraction)
      implements HeatEvidence {
    public RunningHours {
      Plausible.notNegative("running hours", hours, "h");
      Plausible.notNegative("average load", loadFraction, "of nominal");
    }
  }

  /**
   * Circulation with hot and cold water temperature, as averages over the span.
   *
   * @param hotC hot water, °C, not below the cold
   * @param coldC cold water, °C
   * @param waterFlowKgPerSecond circulation, not negative
   */
  record WaterTemperatures(
      Span span,
      double hotC,
      double coldC,
      double waterFlowKgPerSecond,
      OptionalDouble errorFraction)
      implements HeatEvidence {
    public WaterTemperatures {
      Plausible.notNegative("water flow", waterFlowKgPerSecond, "kg/s");
      Plausible.notNegative("range of hot over cold water", hotC - coldC, "K");
    }
  }
}
