package towerledger.simulation.portfolio;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javax.sql.DataSource;
import towerledger.simulation.Chance;
import towerledger.simulation.Climate;
import towerledger.simulation.EvidencePlan;
import towerledger.simulation.EvidencePlan.HeatEvidence;
import towerledger.simulation.EvidencePlan.IntervalPlan;
import towerledger.simulation.EvidencePlan.MeterPlan;
import towerledger.simulation.HourGrid;
import towerledger.simulation.LoadPattern;
import towerledger.simulation.LoadPattern.Use;
import towerledger.simulation.LocalHours;
import towerledger.simulation.Nuisances;
import towerledger.simulation.Observations;
import towerledger.simulation.Observer;
import towerledger.simulation.Operation;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.SimulatedWeather;
import towerledger.simulation.WaterRun;

/**
 * A book of any size for load tests. Twenty-four plants are simulated in four climates and copied
 * with other names and sizes: nine in ten with readings, samples and heat by the month, one in ten
 * with heat and makeup by the hour. All plants are sound: speed does not depend on faults.
 */
public final class LargePortfolio {

  private static final int PLANTS_A_CLIMATE = 6;
  private static final ZoneId ZONE = ZoneId.of("America/Chicago");

  private final PortfolioPlan plan;
  private final Map<Climate, SimulatedWeather> weather = new EnumMap<>(Climate.class);
  private final Map<Climate, List<Plant>> monthly = new EnumMap<>(Climate.class);
  private final Map<Climate, List<Plant>> hourly = new EnumMap<>(Climate.class);
  private int firstHour;

  private record Plant(PlantSpec spec, Observations seen) {}

  private LargePortfolio(PortfolioPlan plan) {
    this.plan = plan;
    LocalDate from = plan.first().atDay(1);
    LocalDate to = plan.first().plusMonths(plan.months()).atDay(1);
    Chance chance = new Chance(plan.seed());
    for (Climate climate : Climate.values()) {
      HourGrid grid = HourGrid.of(from, to, 20, ZONE);
      firstHour = grid.indexOf(from.atStartOfDay(ZONE).toInstant());
      SimulatedWeather air =
          SimulatedWeather.of(
              climate,
              climate.elevationM(),
              new LocalHours(grid, ZONE),
              chance.branch("weather " + climate));
      weather.put(climate, air);
      List<Plant> byMonth = new ArrayList<>();
      List<Plant> byHour = new ArrayList<>();
      for (int i = 0; i < PLANTS_A_CLIMATE; i++) {
        Chance luck = chance.branch("plant " + climate + i);
        boolean hours = i < 2;
        PlantSpec spec = spec(i, luck);
        Operation operation = Operation.of(spec, air, Nuisances.none(), luck.branch("operation"));
        WaterRun run = WaterRun.of(spec, operation, List.of());
        Observations seen =
            Observer.observe(
                run, evidence(hours, i, grid), luck.branch("observer"), spec.name(), from, to);
        (hours ? byHour : byMonth).add(new Plant(spec, seen));
      }
      monthly.put(climate, byMonth);
      hourly.put(climate, byHour);
    }
  }

  /** Writes the book as a bundle. */
  public static void writeBundle(PortfolioPlan plan, Path folder) {
    try (PortfolioSink sink = new BundleSink(folder)) {
      new LargePortfolio(plan).into(sink);
    }
  }

  /** Writes the book into empty tables. */
  public static void writeRows(PortfolioPlan plan, DataSource database) {
    try (PortfolioSink sink = new TableSink(database)) {
      new LargePortfolio(plan).into(sink);
    }
  }

  private void into(PortfolioSink sink) {
    weather.forEach((climate, air) -> sink.station(climate, air, firstHour));
    for (int i = 0; i < plan.customers(); i++) {
      sink.customer(i);
    }
    for (int i = 0; i < plan.sites(); i++) {
      sink.site(i, i / PortfolioPlan.A_CUSTOMER, climate(i));
    }
    Chance chance = new Chance(plan.seed()).branch("copies");
    for (int i = 0; i < plan.systems(); i++) {
      Climate climate = climate(i / PortfolioPlan.A_SITE);
      List<Plant> plants =
          (PortfolioPlan.hourly(i) ? hourly : monthly).getOrDefault(climate, List.of());
      Plant plant = plants.get(chance.wholeBetween(0, plants.size() - 1));
      sink.system(new PortfolioSystem(i, plant.spec(), plant.seen(), chance.between(0.4, 2.5)));
    }
  }

  private static Climate climate(int site) {
    return Climate.values()[site % Climate.values().length];
  }

  private static PlantSpec spec(int number, Chance chance) {
    Use use =
        List.of(
                Use.HOSPITAL,
                Use.DATA_CENTER,
                Use.OFFICE,
                Use.HOTEL,
                Use.LABORATORY,
                Use.THREE_SHIFTS)
            .get(number);
    return new PlantSpec(
        "P" + number,
        new PlantSpec.Rating(
            PlantSpec.Kind.OPEN,
            300,
            chance.between(0.95, 1.4),
            0.6,
            0.1,
            36,
            30,
            25.5,
            35,
            chance.between(22, 26),
            false,
            0.00005,
            0.3),
        new LoadPattern(chance.between(0.5, 0.85), 0.4, 10, 36, use, true, 0.64),
        new PlantSpec.Water(420, 0.08, 0.1, 0.35, 56, 6, Double.NaN),
        new PlantSpec.Basin(11_500, 2_300, 0, 0),
        new PlantSpec.Bleed(PlantSpec.BleedMode.CONDUCTIVITY, 4, 1680, 3_500),
        new PlantSpec.FillValve("mechanical-float", 1.5, 22, false));
  }

  private static EvidencePlan evidence(boolean hourly, int number, HourGrid grid) {
    HeatEvidence heat =
        hourly
            ? HeatEvidence.HOURLY_TEMPERATURES
            : List.of(
                    HeatEvidence.MONTHLY_CHILLER_KWH,
                    HeatEvidence.MONTHLY_RUNNING_HOURS,
                    HeatEvidence.NONE,
                    HeatEvidence.MONTHLY_CHILLER_KWH)
                .get(number - 2);
    return new EvidencePlan(
        heat,
        1,
        0.03,
        28,
        0.02,
        0,
        new MeterPlan("gal", 1, 12, 0, 1.5, 1.5, "displacement", 1, 0, 1000, -1),
        false,
        28,
        false,
        0,
        28,
        hourly ? new IntervalPlan(20 * 24, grid.hours(), 60) : null);
  }
}
