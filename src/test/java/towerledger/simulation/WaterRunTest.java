package towerledger.simulation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantSpec.Kind;

class WaterRunTest {

  private static SimulatedWeather weather;

  @BeforeAll
  static void simulateAYear() {
    ZoneId zone = ZoneId.of("America/New_York");
    HourGrid grid = HourGrid.of(LocalDate.of(2025, 5, 1), LocalDate.of(2026, 5, 1), 20, zone);
    weather =
        SimulatedWeather.of(
            Climate.TEMPERATE, 95, new LocalHours(grid, zone), new Chance(11).branch("weather"));
  }

  @ParameterizedTest
  @EnumSource(PlantedCause.class)
  void waterThatComesInGoesOutOrStays(PlantedCause cause) {
    PlantSpec spec = plant(BleedMode.CONDUCTIVITY);
    Operation operation = operation(spec);
    double size =
        switch (cause) {
          case LOW_CYCLES -> 0.3;
          case DRIFT_EXCESS -> 40;
          case FILL_VALVE_STUCK_OPEN, FILL_VALVE_SHUT -> 1;
          case MAKEUP_METER_ERROR, CONDUCTIVITY_ERROR, HEAT_LOAD_ERROR -> 0.8;
          default -> 300;
        };
    int to = cause == PlantedCause.FILL_VALVE_SHUT ? 3400 : Integer.MAX_VALUE;

    WaterRun run = WaterRun.of(spec, operation, List.of(new Fault(cause, 3000, to, size)));

    double in = 0;
    double out = 0;
    for (int h = 1; h < operation.length(); h++) {
      in += run.makeupL(h) + run.hoseL(h);
      out +=
          operation.evaporationL(h)
              + run.driftL(h)
              + run.bleedL(h)
              + run.overflowL(h)
              + run.drainedL(h)
              + run.freshLossL(h)
              + run.otherUseL(h);
    }
    double stored = run.basinL(operation.length() - 1) - run.basinL(0);
    assertThat(in - out - stored).isCloseTo(0, within(1e-6 * in));
  }

  /** What a basin loss of a tenth of makeup costs depends on who decides the bleed. */
  @ParameterizedTest
  @CsvSource({"CONDUCTIVITY, 0.0, 0.45", "MAKEUP_PROPORTIONAL, 1.05, 1.6", "TIMER, 0.5, 1.05"})
  void costOfASmallBasinLossFollowsTheBleedControl(BleedMode mode, double least, double most) {
    PlantSpec spec = plant(mode);
    Operation operation = operation(spec);
    WaterRun twin = WaterRun.of(spec, operation, List.of());
    double demand = sum(twin) / operation.length();

    WaterRun run =
        WaterRun.of(
            spec,
            operation,
            List.of(new Fault(PlantedCause.BASIN_LEAK, 0, Integer.MAX_VALUE, 0.1 * demand)));

    double share = (sum(run) - sum(twin)) / (0.1 * demand * operation.length());
    assertThat(share).isBetween(least, most);
  }

  @Test
  void conductivityControlHoldsItsAim() {
    PlantSpec spec = plant(BleedMode.CONDUCTIVITY);
    WaterRun run = WaterRun.of(spec, operation(spec), List.of());

    double highest = 0;
    for (int h = 2000; h < run.operation().length(); h++) {
      highest = Math.max(highest, run.basinUsCm(h));
    }

    assertThat(highest).isCloseTo(spec.bleed().setpointUsCm(), within(0.03 * 1280));
  }

  @Test
  void leakByBelowTheDemandCostsNothing() {
    PlantSpec spec = plant(BleedMode.CONDUCTIVITY);
    Operation operation = operation(spec);
    WaterRun twin = WaterRun.of(spec, operation, List.of());
    WaterRun run =
        WaterRun.of(
            spec,
            operation,
            List.of(new Fault(PlantedCause.FILL_VALVE_LEAKING_BY, 0, Integer.MAX_VALUE, 20)));

    assertThat(sum(run)).isCloseTo(sum(twin), within(0.01 * sum(twin)));
  }

  private static double sum(WaterRun run) {
    double litres = 0;
    for (int h = 0; h < run.operation().length(); h++) {
      litres += run.makeupL(h);
    }
    return litres;
  }

  private static Operation operation(PlantSpec spec) {
    return Operation.of(spec, weather, Nuisances.none(), new Chance(3).branch("operation"));
  }

  private static PlantSpec plant(BleedMode mode) {
    return new PlantSpec(
        "P",
        new PlantSpec.Rating(
            Kind.OPEN, 300, 1.2, 0.6, 0.1, 35, 29.4, 25.3, 34, 24, false, 0.00005, 0.3),
        new LoadPattern(0.7, 0.35, 9, 34, LoadPattern.Use.HOSPITAL, true, 0.65),
        new PlantSpec.Water(320, 0.08, 0.1, 0.4, 55, 6, Double.NaN),
        new PlantSpec.Basin(11_000, 2_200, 0, 0),
        new PlantSpec.Bleed(mode, 4, 1280, 3_500),
        new PlantSpec.FillValve("mechanical-float", 1.5, 22, false));
  }
}
