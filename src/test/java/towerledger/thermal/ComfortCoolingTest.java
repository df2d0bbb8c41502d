package towerledger.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import org.junit.jupiter.api.Test;
import towerledger.SharedReference;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.Units;

/**
 * Common practice, no source: a 100-ton comfort-cooling tower evaporates 500,000 to 600,000 gallons
 * a year. It does where it runs some 4,600 hours at three quarters of its load in a warm climate; a
 * shorter season evaporates less, so that the figure is no rule for other places. A ton-hour takes
 * 1.3 gallons in a marine climate to 1.8 in a hot-dry one (common practice, no source).
 */
class ComfortCoolingTest {

  /** Atlanta, TMY3 (public): every hour above 17 °C at 75 % of 100 tons of cooling. */
  @Test
  void aHundredTonsEvaporateHalfAMillionGallonsInAWarmClimate() throws IOException {
    Season season = season("weather/atlanta_tmy3.epw", 17);
    assertThat(season.hours()).isBetween(4400, 4800);
    assertThat(season.gallons()).isBetween(500_000.0, 600_000.0);
    assertThat(season.gallonsPerTonHour()).isBetween(1.3, 1.8);
  }

  /** Chicago, TMY3 (public): the same rule of running gives far less. */
  @Test
  void aShorterSeasonEvaporatesLess() throws IOException {
    Season season = season("weather/chicago_tmy3.epw", 17);
    assertThat(season.gallons()).isLessThan(450_000);
    assertThat(season.gallonsPerTonHour()).isBetween(1.3, 1.8);
  }

  private record Season(int hours, double gallons, double gallonsPerTonHour) {}

  private static Season season(String file, double startsAtC) throws IOException {
    MoistAir rated = MoistAir.fromWetBulb(35, 25.56, 99_000);
    DesignPoint point =
        DesignPoint.withUsualAirFlow(
            100 * Units.WATTS_PER_TOWER_TON / 4186 / 5.556, 35, 29.444, rated);
    ResponseTable table = ResponseTable.of(TowerDesign.open(point));
    double heatW = 75 * Units.WATTS_PER_TOWER_TON;
    int hours = 0;
    double litres = 0;
    var lines = Files.readAllLines(SharedReference.fileOrSkip(file), StandardCharsets.ISO_8859_1);
    for (String line : lines.subList(8, lines.size())) {
      String[] cells = line.split(",");
      double t = Double.parseDouble(cells[6]);
      if (t <= startsAtC) {
        continue;
      }
      double p = Double.parseDouble(cells[9]);
      double dew = Math.min(Double.parseDouble(cells[7]), t);
      double wetBulb = Math.min(MoistAir.fromDewPoint(t, dew, p).wetBulbC(), t);
      hours++;
      litres +=
          table.evaporationKgS(heatW, t, wetBulb, p, 26) * 3600 / DesignPoint.WATER_KG_PER_LITRE;
    }
    double gallons = litres / Units.LITRES_PER_US_GALLON;
    return new Season(hours, gallons, gallons / (75.0 * hours));
  }
}
