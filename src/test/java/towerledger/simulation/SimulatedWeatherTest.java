package towerledger.simulation;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.ZoneId;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class SimulatedWeatherTest {

  @ParameterizedTest
  @EnumSource(Climate.class)
  void airIsNeverWetterThanSaturated(Climate climate) {
    SimulatedWeather weather = year(climate);

    for (int h = 0; h < weather.hours().grid().hours(); h++) {
      assertThat(weather.dewPointC(h)).isLessThan(weather.dryBulbC(h));
      assertThat(weather.pressurePa(h)).isBetween(90_000.0, 106_000.0);
    }
  }

  @ParameterizedTest
  @EnumSource(Climate.class)
  void afternoonsAreWarmerThanNightsAndSummerThanWinter(Climate climate) {
    SimulatedWeather weather = year(climate);
    double[] sum = new double[4];
    int[] count = new int[4];
    for (int h = 0; h < weather.hours().grid().hours(); h++) {
      int hour = weather.hours().hourOfDay(h);
      int month = weather.hours().date(h).getMonthValue();
      int place = hour == 15 ? 0 : hour == 4 ? 1 : month == 7 ? 2 : month == 1 ? 3 : -1;
      if (place >= 0) {
        sum[place] += weather.dryBulbC(h);
        count[place]++;
      }
    }

    assertThat(sum[0] / count[0] - sum[1] / count[1]).isBetween(5.0, 18.0);
    assertThat(sum[2] / count[2] - sum[3] / count[3]).isGreaterThan(12);
  }

  private static SimulatedWeather year(Climate climate) {
    ZoneId zone = ZoneId.of("America/Chicago");
    HourGrid grid = HourGrid.of(LocalDate.of(2025, 5, 1), LocalDate.of(2026, 5, 1), 0, zone);
    return SimulatedWeather.of(
        climate, climate.elevationM(), new LocalHours(grid, zone), new Chance(5));
  }
}
