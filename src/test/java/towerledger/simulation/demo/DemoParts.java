package towerledger.simulation.demo;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.simulation.EvidencePlan;
import towerledger.simulation.EvidencePlan.HeatEvidence;
import towerledger.simulation.EvidencePlan.IntervalPlan;
import towerledger.simulation.EvidencePlan.MeterPlan;
import towerledger.simulation.Nuisances;
import towerledger.simulation.Nuisances.Drain;
import towerledger.simulation.Nuisances.LoadStep;
import towerledger.simulation.Nuisances.PressureStep;
import towerledger.simulation.Nuisances.SetpointChange;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.Kind;
import towerledger.simulation.demo.DemoSystem.Dated;
import towerledger.simulation.demo.DemoSystem.Told;
import towerledger.simulation.demo.DemoSystem.Tower;

/** What every invented plant is put together from. */
final class DemoParts {

  private DemoParts() {}

  /** Temperatures in °F as on a nameplate, drift in percent of circulation. */
  static PlantSpec.Rating rating(
      Kind kind,
      double tons,
      double liquidToGas,
      double fillExponent,
      double hotF,
      double coldF,
      double wetBulbF,
      double dryBulbF,
      double setpointF,
      boolean economizer,
      double driftPercent) {
    return new PlantSpec.Rating(
        kind,
        tons,
        liquidToGas,
        fillExponent,
        0.1,
        c(hotF),
        c(coldF),
        c(wetBulbF),
        c(dryBulbF),
        c(setpointF),
        economizer,
        driftPercent / 100,
        0.3);
  }

  private static double c(double fahrenheit) {
    return (fahrenheit - 32) / 1.8;
  }

  static Tower tower(
      String code,
      String name,
      int cells,
      String arrangement,
      double tons,
      boolean airFlowKnown,
      double fanHp,
      String fanControl,
      double basinGal,
      boolean heater,
      int year) {
    return new Tower(
        code,
        name,
        cells,
        arrangement,
        tons,
        airFlowKnown,
        fanHp,
        fanControl,
        basinGal,
        heater,
        LocalDate.of(year, 4, 1));
  }

  static Told told(
      String heatSource,
      @Nullable Boolean economizer,
      String use,
      @Nullable String from,
      @Nullable String to,
      @Nullable String days,
      @Nullable String idle,
      @Nullable Double valveMaxPsi,
      @Nullable Boolean sensorOutside,
      boolean valveKnown) {
    return told(
        heatSource,
        economizer,
        use,
        from,
        to,
        days,
        idle,
        valveMaxPsi,
        sensorOutside,
        valveKnown,
        "open");
  }

  static Told told(
      String heatSource,
      @Nullable Boolean economizer,
      String use,
      @Nullable String from,
      @Nullable String to,
      @Nullable String days,
      @Nullable String idle,
      @Nullable Double valveMaxPsi,
      @Nullable Boolean sensorOutside,
      boolean valveKnown,
      String kind) {
    return new Told(
        kind,
        heatSource,
        economizer,
        use,
        from,
        to,
        days,
        idle,
        valveMaxPsi,
        sensorOutside,
        valveKnown);
  }

  static EvidencePlan evidence(
      HeatEvidence heat,
      double bias,
      double scatter,
      int readingDays,
      double missed,
      @Nullable MeterPlan meter,
      boolean bleedMeter,
      int sampleDays,
      boolean fromDisplay,
      int pressureDays,
      int visitDays,
      @Nullable IntervalPlan intervals) {
    return new EvidencePlan(
        heat,
        bias,
        scatter,
        readingDays,
        missed,
        0.06,
        meter,
        bleedMeter,
        sampleDays,
        fromDisplay,
        pressureDays,
        visitDays,
        intervals);
  }

  static MeterPlan meter(
      String unit,
      double multiplier,
      int digits,
      int decimals,
      double accuracy,
      double size,
      String type,
      double scale,
      double yearlyDrift,
      double start,
      int swapHour) {
    return new MeterPlan(
        unit,
        multiplier,
        digits,
        decimals,
        accuracy,
        size,
        type,
        scale,
        yearlyDrift,
        start,
        swapHour);
  }

  static Nuisances nuisances(
      List<LoadStep> steps,
      List<Drain> drains,
      List<SetpointChange> changes,
      List<PressureStep> pressures) {
    return new Nuisances(steps, drains, changes, pressures, List.of());
  }

  static List<Dated> cleanings(String autumn, String spring, double part) {
    return List.of(clean(autumn, part), clean(spring, part));
  }

  static Dated clean(String day, double part) {
    return new Dated(
        LocalDate.parse(day),
        List.of("basin-drained"),
        part,
        part > 0.8 ? "Seasonal clean of basin and fill." : "Seasonal clean, one cell at a time.",
        "Basin drained, silt shovelled out, strainers washed, refilled and dosed.");
  }
}
