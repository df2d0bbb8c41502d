package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WeatherHours;

/** Weather that was filled in rather than observed makes a month's evidence weaker. */
class FilledWeatherTest {

  private static final YearMonth MONTH = YearMonth.of(2025, 3);

  private static final Reconciler RECONCILER = new Reconciler(ReconciliationPolicy.standard());

  private final SystemFacts facts = new MadeUpSystem().observed().facts();

  @Test
  void moreThanAFifthFilledLowersTheGradeByOneAndIsSaid() {
    MonthVerdict observed = judge(0);
    MonthVerdict fifth = judge(0.19);
    MonthVerdict more = judge(0.25);

    assertThat(fifth.grade()).isEqualTo(observed.grade());
    assertThat(more.grade().ordinal()).isEqualTo(observed.grade().ordinal() + 1);
    assertThat(more.assumptions()).anyMatch(note -> note.contains("weather was filled in"));
    assertThat(observed.assumptions()).noneMatch(note -> note.contains("filled in"));
    assertThat(more.water().evaporation().orElseThrow().value())
        .isEqualTo(observed.water().evaporation().orElseThrow().value());
  }

  @Test
  void figuresOnATypicalYearSaySoAndCountAsFilled() {
    WeatherHours typical = facts.weather().ofTypicalYear();
    MonthVerdict observed = judge(0);

    MonthVerdict verdict = RECONCILER.judge(with(typical), MONTH, MONTH).get(0);

    assertThat(verdict.assumptions()).anyMatch(note -> note.contains("a typical year's"));
    assertThat(verdict.assumptions()).noneMatch(note -> note.contains("filled in"));
    assertThat(verdict.grade().ordinal()).isEqualTo(observed.grade().ordinal() + 1);
  }

  private MonthVerdict judge(double filledShare) {
    WeatherHours weather = facts.weather();
    int hours = weather.hours();
    float[] dry = new float[hours];
    float[] wet = new float[hours];
    float[] pressure = new float[hours];
    boolean[] filled = new boolean[hours];
    for (int i = 0; i < hours; i++) {
      dry[i] = (float) weather.dryBulbC(i);
      wet[i] = (float) weather.wetBulbC(i);
      pressure[i] = (float) weather.pressurePa(i);
      filled[i] = i % 100 < 100 * filledShare;
    }
    return RECONCILER
        .judge(with(new WeatherHours(weather.start(), dry, wet, pressure, filled)), MONTH, MONTH)
        .get(0);
  }

  private SystemFacts with(WeatherHours weather) {
    return new SystemFacts(
        facts.system(),
        facts.zone(),
        facts.attributes(),
        facts.towers(),
        facts.settings(),
        weather,
        facts.heat(),
        facts.meters(),
        facts.samples(),
        facts.pressures(),
        facts.visits());
  }
}
