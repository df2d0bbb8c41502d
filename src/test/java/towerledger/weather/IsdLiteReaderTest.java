package towerledger.weather;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Lines made up here in the columns of NOAA's isd-lite-format.txt. */
class IsdLiteReaderTest {

  private static EpwReaderTest.Collected read(double elevationM, String... lines)
      throws IOException {
    var collected = new EpwReaderTest.Collected();
    IsdLiteReader.read(elevationM, new StringReader(String.join("\n", lines)), collected);
    return collected;
  }

  @Test
  void readsTenthsInUtc() throws IOException {
    var collected = read(0, "2024 07 09 18   311   206 10142   200    36     2     0 -9999");

    WeatherRow row = collected.rows.get(0);
    assertThat(row.hourStart()).isEqualTo(Instant.parse("2024-07-09T18:00:00Z"));
    assertThat(row.dryBulbC()).isEqualTo(31.1);
    assertThat(row.dewPointC()).hasValue(20.6);
    assertThat(row.pressurePa()).hasValue(101_420);
  }

  @Test
  void readsTemperaturesBelowZero() throws IOException {
    var collected = read(0, "2024 01 16 06  -233  -278 10385   300    41     0 -9999 -9999");

    assertThat(collected.rows.get(0).dryBulbC()).isEqualTo(-23.3);
    assertThat(collected.rows.get(0).dewPointC()).hasValue(-27.8);
  }

  /**
   * US Standard Atmosphere 1976 (values from memory): at these heights, with the temperature that
   * belongs there, 1013.25 hPa at sea level is this station pressure.
   */
  @ParameterizedTest
  @CsvSource({"500, 118, 954.61", "1000, 85, 898.76", "1500, 53, 845.59", "2000, 20, 795.01"})
  void turnsSeaLevelIntoStationPressure(double elevationM, int tenths, double hectopascal)
      throws IOException {
    var collected =
        read(
            elevationM,
            "2024 05 01 00 %5d   -50 10132 -9999 -9999 -9999 -9999 -9999".formatted(tenths));

    // The file's last digit is 0.1 hPa, and tenths of a degree are rounded here.
    assertThat(collected.rows.get(0).pressurePa().getAsDouble() / 100)
        .isCloseTo(hectopascal, within(0.25));
  }

  @Test
  void missingTemperaturesAreGapsAndMissingPressureIsNot() throws IOException {
    var collected =
        read(
            200,
            "2024 07 09 18 -9999   206 10142   200    36     2     0 -9999",
            "2024 07 09 19   311 -9999 10142   200    36     2     0 -9999",
            "2024 07 09 20   311   206 -9999   200    36     2     0 -9999");

    assertThat(collected.missing).containsExactly(1L, 2L);
    assertThat(collected.rows).hasSize(1);
    assertThat(collected.rows.get(0).pressurePa()).isEmpty();
  }

  @Test
  void refusesBrokenLinesInWords() throws IOException {
    var collected =
        read(
            200,
            "2024 07 09 18   311",
            "2024 02 30 18   311   206 10142   200    36     2     0 -9999",
            "year 07 09 18   311   206 10142   200    36     2     0 -9999",
            "2024 07 09 18  9110   206 10142   200    36     2     0 -9999",
            "",
            "2024 07 09 20   311   206 10142   200    36     2     0 -9999");

    assertThat(collected.refused).containsOnlyKeys(1L, 2L, 3L, 4L);
    assertThat(collected.refused.get(1L)).contains("19 characters");
    assertThat(collected.rows).hasSize(1);
  }
}
