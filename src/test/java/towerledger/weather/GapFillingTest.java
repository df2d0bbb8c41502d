package towerledger.weather;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.function.LongPredicate;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.Span;

class GapFillingTest {

  private static final long START = HourSeries.hourOf(Instant.parse("2024-01-01T00:00:00Z"));
  private static final int TWO_YEARS = (366 + 365) * 24;

  /** Dry bulb tells its year, month and hour of day; wet bulb is two kelvin lower. */
  private static HourSeries record(LongPredicate observed) {
    HourSeries series = HourSeries.empty(START, TWO_YEARS);
    for (long hour = START; hour < START + TWO_YEARS; hour++) {
      if (observed.test(hour)) {
        double dry = dry(hour);
        series.put(hour, dry, dry - 2, Double.NaN, Double.NaN, 98_000, 98_000);
      }
    }
    return series;
  }

  private static double dry(long hour) {
    var at = Instant.ofEpochSecond(hour * 3600).atZone(java.time.ZoneOffset.UTC);
    return (at.getYear() == 2024 ? 0 : 5) + at.getMonthValue() + at.getHour() * 0.1;
  }

  private static long hour(String instant) {
    return HourSeries.hourOf(Instant.parse(instant));
  }

  private static WeatherHours fill(HourSeries series, String from, int hours) {
    return new GapFilling(series, 98_000).fill(hour(from), hours);
  }

  @Test
  void leavesObservedHoursAlone() {
    var hours = fill(record(h -> true), "2024-06-01T00:00:00Z", 48);

    for (int i = 0; i < 48; i++) {
      assertThat(hours.filled(i)).isFalse();
      assertThat(hours.dryBulbC(i)).isCloseTo(dry(hour("2024-06-01T00:00:00Z") + i), within(1e-5));
    }
  }

  @Test
  void interpolatesThreeHours() {
    long gap = hour("2024-06-01T10:00:00Z");
    var hours = fill(record(h -> h < gap || h > gap + 2), "2024-06-01T09:00:00Z", 5);

    // 6.9 before and 7.3 after, in four steps.
    assertThat(hours.dryBulbC(1)).isCloseTo(7.0, within(1e-5));
    assertThat(hours.dryBulbC(3)).isCloseTo(7.2, within(1e-5));
    assertThat(hours.wetBulbC(2)).isCloseTo(5.1, within(1e-5));
    assertThat(hours.filled(0)).isFalse();
    assertThat(hours.filled(1)).isTrue();
    assertThat(hours.filled(3)).isTrue();
    assertThat(hours.filled(4)).isFalse();
  }

  @Test
  void takesNormalsOfTheMonthAndHourForLongerGaps() {
    long gap = hour("2025-06-10T10:00:00Z");
    var hours = fill(record(h -> h < gap || h > gap + 3), "2025-06-10T10:00:00Z", 4);

    // June 2024 at 10 h: 7.0, 30 days; June 2025: 12.0, 29 days.
    double normal = (30 * 7.0 + 29 * 12.0) / 59;
    assertThat(hours.dryBulbC(0)).isCloseTo(normal, within(1e-4));
    assertThat(hours.wetBulbC(0)).isCloseTo(normal - 2, within(1e-4));
    assertThat(hours.filled(0)).isTrue();
  }

  @Test
  void laterYearsDoNotAlterTheNormalsOfAMonthThatHasItsOwn() {
    long gap = hour("2024-06-10T10:00:00Z");
    var hours = fill(record(h -> h < gap || h > gap + 3), "2024-06-10T10:00:00Z", 4);

    assertThat(hours.dryBulbC(0)).isCloseTo(7.0, within(1e-4));
  }

  @Test
  void aMonthWithoutAnyHoursTakesTheNormalsOfOtherYears() {
    long from = hour("2024-06-01T00:00:00Z");
    long to = hour("2024-07-01T00:00:00Z");
    var hours = fill(record(h -> h < from || h >= to), "2024-06-15T10:00:00Z", 1);

    assertThat(hours.dryBulbC(0)).isCloseTo(12.0, within(1e-4));
    assertThat(hours.filled(0)).isTrue();
  }

  @Test
  void staysUnknownWithoutNormals() {
    long from = hour("2024-06-05T00:00:00Z");
    var hours = fill(record(h -> h < from), "2024-08-15T10:00:00Z", 1);

    assertThat(hours.dryBulbC(0)).isNaN();
    assertThat(hours.filled(0)).isFalse();
  }

  @Test
  void pressureAloneIsFilledWithoutAMark() {
    HourSeries series = HourSeries.empty(START, 10);
    for (int i = 0; i < 10; i++) {
      boolean known = i == 0 || i == 3;
      series.put(
          START + i,
          20,
          15,
          Double.NaN,
          Double.NaN,
          known ? 98_000 + i * 100 : Double.NaN,
          Double.NaN);
    }

    var hours = new GapFilling(series, 97_000).fill(START, 10);

    assertThat(hours.pressurePa(1)).isCloseTo(98_100, within(0.1));
    assertThat(hours.pressurePa(7)).isEqualTo(97_000);
    assertThat(hours.filled(1)).isFalse();
  }

  @Test
  void wetBulbComesFromWhateverHumidityIsThere() {
    // ASHRAE Fundamentals 2017, ch. 1, as psychrolib computes it: 30 °C, 50 %, 101325 Pa.
    assertThat(HourSeries.wetBulb(30, Double.NaN, Double.NaN, 50, 101_325))
        .isCloseTo(22.0, within(0.1));
    assertThat(HourSeries.wetBulb(30, 21.4, Double.NaN, Double.NaN, 101_325)).isEqualTo(21.4);
    assertThat(HourSeries.wetBulb(10, 10.3, Double.NaN, Double.NaN, 101_325)).isEqualTo(10);
    assertThat(HourSeries.wetBulb(10, Double.NaN, 10.2, Double.NaN, 101_325))
        .isCloseTo(10, within(1e-6));
    assertThat(HourSeries.wetBulb(10, Double.NaN, Double.NaN, 104, 101_325))
        .isCloseTo(10, within(1e-6));
    // Bone-dry air: equation 33 with W = 0, solved by hand at t* = 12.63 °C.
    assertThat(HourSeries.wetBulb(35, Double.NaN, Double.NaN, 0, 101_325))
        .isCloseTo(12.63, within(0.02));
    assertThat(HourSeries.wetBulb(35, Double.NaN, -99, Double.NaN, 101_325))
        .isCloseTo(12.63, within(0.02));
    assertThat(HourSeries.wetBulb(35, 12, Double.NaN, Double.NaN, 101_325)).isNaN();
    assertThat(HourSeries.wetBulb(35, 12.7, Double.NaN, Double.NaN, 101_325)).isEqualTo(12.7);
    assertThat(HourSeries.wetBulb(35, Double.NaN, -150, Double.NaN, 101_325)).isNaN();
    assertThat(HourSeries.wetBulb(35, Double.NaN, Double.NaN, Double.NaN, 101_325)).isNaN();
    assertThat(HourSeries.wetBulb(35, Double.NaN, 20, Double.NaN, Double.NaN)).isNaN();
  }

  @Test
  void tellsTheShareOfFilledHours() {
    long gap = hour("2024-06-10T00:00:00Z");
    var hours = fill(record(h -> h < gap || h >= gap + 72), "2024-06-01T00:00:00Z", 30 * 24);
    var weather = new StationWeather("S", hours, false);
    var june =
        Span.of(Instant.parse("2024-06-01T00:00:00Z"), Instant.parse("2024-07-01T00:00:00Z"));
    var july =
        Span.of(Instant.parse("2024-07-01T00:00:00Z"), Instant.parse("2024-08-01T00:00:00Z"));

    assertThat(weather.filledShare(june)).isCloseTo(0.1, within(1e-9));
    assertThat(weather.filledShare(july)).isEqualTo(1);
  }

  @Test
  void aTypicalYearRepeatsEveryYearAndOnTheLeapDay() {
    HourSeries year = HourSeries.empty(HourSeries.hourOf(TypicalYear.START), TypicalYear.HOURS);
    for (int i = 0; i < TypicalYear.HOURS; i++) {
      year.put(
          year.firstHour + i, i * 0.005, i * 0.005 - 1, Double.NaN, Double.NaN, 98_000, 98_000);
    }

    var laid = HourSeries.ofTypicalYear(year, hour("2024-02-28T00:00:00Z"), 72);

    assertThat(laid.dryBulbC[24 + 5]).isEqualTo(laid.dryBulbC[5]);
    assertThat(laid.dryBulbC[48]).isEqualTo(year.dryBulbC[59 * 24]);
    assertThat(TypicalYear.hourOfYear(Instant.parse("2023-12-31T23:00:00Z"))).isEqualTo(8759);
    assertThat(TypicalYear.hourOfYear(Instant.parse("2024-12-31T23:00:00Z"))).isEqualTo(8759);
  }

  @Test
  void measuresDistancesOverTheEarth() {
    // One degree of a great circle on the mean sphere (IUGG R1 6371.0088 km): 111.195 km.
    assertThat(GreatCircle.kilometres(10, 20, 11, 20)).isCloseTo(111.195, within(0.001));
    assertThat(GreatCircle.kilometres(0, 179.5, 0, -179.5)).isCloseTo(111.195, within(0.001));
    assertThat(GreatCircle.kilometres(0, 0, 0, 180)).isCloseTo(20_015.1, within(0.1));
    assertThat(GreatCircle.kilometres(45, 45, 45, 45)).isZero();
  }
}
