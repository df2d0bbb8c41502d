package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WaterSample;
import towerledger.balance.facts.WeatherHours;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.thermal.DesignPoint;
import towerledger.thermal.TowerDesign;
import towerledger.thermal.WetTower;

/**
 * A hall of machines that shed the same heat day and night, cold and warm weeks alike, and nobody
 * told what the building is for. Its water comes from Poppe's equations hour by hour and E·C/(C−1),
 * its heat from running hours once a month, its register is read every week.
 */
class EvenLoadTest {

  private static final YearMonth FIRST = YearMonth.of(2025, 1);
  private static final YearMonth LAST = YearMonth.of(2026, 5);
  private static final int DAYS = MadeUpSystem.DAYS;
  private static final double PRESSURE_PA = 99_000;
  private static final double LOAD = 0.5;
  private static final double FRESH_US_CM = 400;

  /** What people write down of a load that never changes; average 0.5. */
  private static final double[] GUESSED = {0.45, 0.55, 0.5, 0.45, 0.5, 0.55, 0.5};

  private final double[] evaporatedL = new double[DAYS];
  private final WeatherHours weather = weather();

  /** Weeks in which a comfort load would have fallen by half are no sign of water lost. */
  @Test
  void steadyLoadIsNoLeak() {
    List<MonthVerdict> verdicts =
        new Reconciler(ReconciliationPolicy.standard()).judge(facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts) {
      assertThat(verdict.judgement().flagged()).as("%s", verdict.month()).isFalse();
      assertThat(verdict.judgement().likeliest().probability())
          .as("that nothing is wrong in %s", verdict.month())
          .isGreaterThan(0.6);
    }
  }

  private SystemFacts facts() {
    SystemFacts made = new MadeUpSystem().facts();
    List<HeatEvidence> heat = new ArrayList<>();
    for (YearMonth month = FIRST; !month.isAfter(LAST); month = month.plusMonths(1)) {
      Span span = CalendarMonth.of(month, MadeUpSystem.ZONE).span();
      double guessed = GUESSED[heat.size() % GUESSED.length];
      heat.add(new HeatEvidence.RunningHours(span, span.hours(), guessed, OptionalDouble.empty()));
    }
    List<RegisterVolume> volumes = new ArrayList<>();
    List<WaterSample> samples = new ArrayList<>();
    for (int day = 0; day + 7 <= DAYS; day += 7) {
      double litres = 0;
      for (int d = day; d < day + 7; d++) {
        litres += evaporatedL[d] * MadeUpSystem.CYCLES / (MadeUpSystem.CYCLES - 1);
      }
      volumes.add(
          RegisterVolume.read(Span.of(MadeUpSystem.at(day), MadeUpSystem.at(day + 7)), litres));
      samples.add(
          WaterSample.ofConductivities(
              MadeUpSystem.at(day).plus(Duration.ofHours(15)),
              FRESH_US_CM,
              MadeUpSystem.CYCLES * FRESH_US_CM));
    }
    return new SystemFacts(
        "EVEN",
        made.zone(),
        made.attributes(),
        made.towers(),
        made.settings(),
        weather,
        heat,
        List.of(MadeUpSystem.meter("M", volumes)),
        samples,
        List.of(),
        List.of());
  }

  /** A year of seasons with spells of eleven days, 7 °C up and down. */
  private WeatherHours weather() {
    float[] dry = new float[24 * DAYS];
    float[] wet = new float[24 * DAYS];
    float[] pressure = new float[24 * DAYS];
    MoistAir design = MoistAir.fromWetBulb(35, 25.56, PRESSURE_PA);
    double water = MadeUpSystem.NOMINAL_W / 4186 / 5.556;
    WetTower tower =
        WetTower.of(TowerDesign.open(DesignPoint.withUsualAirFlow(water, 35, 29.444, design)));
    for (int h = 0; h < dry.length; h++) {
      double season = -Math.cos(2 * Math.PI * (h / 24.0 - 15) / 365);
      double spell = Math.sin(2 * Math.PI * h / 24.0 / 11);
      double day = -Math.cos(2 * Math.PI * (h % 24 - 10) / 24.0);
      double t = 13 + 9 * season + 7 * spell + 4 * day;
      MoistAir air = MoistAir.fromRelativeHumidity(t, 0.6 - 0.15 * day, PRESSURE_PA);
      dry[h] = (float) t;
      wet[h] = (float) Math.min(t, air.wetBulbC());
      pressure[h] = (float) PRESSURE_PA;
      evaporatedL[h / 24] +=
          tower.operate(LOAD * MadeUpSystem.NOMINAL_W, air, 25).evaporationKgS()
              * 3600
              / DesignPoint.WATER_KG_PER_LITRE;
    }
    return new WeatherHours(MadeUpSystem.at(0), dry, wet, pressure, new boolean[dry.length]);
  }
}
