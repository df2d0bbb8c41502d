package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What a row that tells less, or the same thing in another way, does to what is known. */
class ToldAgainCases {

  @TempDir Path folder;
  @Autowired Importer importer;
  @Autowired JdbcClient jdbc;

  private void book(String prefix) throws IOException {
    take(Uploads.book(prefix));
  }

  private ImportReceipt take(byte[] zip) throws IOException {
    return Uploads.take(importer, folder, zip);
  }

  private FileReceipt take(String file, String text) throws IOException {
    return take(Uploads.zip(Map.of(file, text.getBytes(StandardCharsets.UTF_8)))).files().get(0);
  }

  private static void assertCounts(
      FileReceipt receipt, long added, long changed, long unchanged, long quarantined) {
    assertThat(
            List.of(receipt.added(), receipt.changed(), receipt.unchanged(), receipt.quarantined()))
        .as("%s", receipt)
        .isEqualTo(List.of(added, changed, unchanged, quarantined));
  }

  @Test
  void aMeterThatTellsNoMultiplierKeepsItsOwn() throws IOException {
    book("MUL");
    take("meters.csv", "meter,system,role,unit,multiplier\nMUL-MU,MUL-T1,makeup,gal,100\n");

    assertCounts(
        take(
            "meters.csv",
            "meter,system,role,unit,multiplier,purpose\n"
                + "MUL-MU,MUL-T1,makeup,gal,,\n"
                + "MUL-MU,MUL-T1,makeup,gal,,tower makeup\n"
                + "MUL-NEW,MUL-T1,makeup,gal,,\n"),
        1,
        1,
        1,
        0);

    assertThat(multiplier("MUL-MU")).isEqualByComparingTo("100");
    assertThat(multiplier("MUL-NEW")).as("1 unless it is told").isEqualByComparingTo("1");
  }

  private java.math.BigDecimal multiplier(String meter) {
    return jdbc.sql("SELECT multiplier FROM site_meter WHERE code = ?")
        .param(meter)
        .query(java.math.BigDecimal.class)
        .single();
  }

  @Test
  void anEstimatedReadingToldAgainWithoutItsKindStaysEstimated() throws IOException {
    book("EST");
    take(
        "register_readings.csv",
        "meter,read_at,register,kind\nEST-MU,2025-03-01T08:00,100,estimated\n");
    String bare = "meter,read_at,register\nEST-MU,2025-03-01T08:00,%s\n";

    assertCounts(take("register_readings.csv", bare.formatted("100")), 0, 0, 1, 0);
    assertThat(kind("EST-MU")).isEqualTo("estimated");

    assertCounts(take("register_readings.csv", bare.formatted("104")), 0, 1, 0, 0);
    assertThat(kind("EST-MU")).as("another value was read").isEqualTo("actual");
  }

  private String kind(String meter) {
    return jdbc.sql(
            """
            SELECT r.kind FROM meter_register_reading r
            JOIN site_meter m ON m.id = r.meter_id WHERE m.code = ?""")
        .param(meter)
        .query(String.class)
        .single();
  }

  @Test
  void heatOfAnotherKindForTheSameSpanReplacesTheOlder() throws IOException {
    book("HEA");
    take(
        "heat_loads.csv",
        "system,start,end,running_hours,average_load_percent,error_percent\n"
            + "HEA-T1,2025-07-01,2025-07-02,20,60,25\n");
    String metered =
        "system,start,end,heat_rejected_gj\nHEA-T1,2025-07-01T00:00-05:00,2025-07-02,31.5\n";

    assertCounts(take("heat_loads.csv", metered), 0, 1, 0, 0);
    assertCounts(take("heat_loads.csv", metered), 0, 0, 1, 0);

    var row =
        jdbc.sql(
                """
                SELECT h.heat_rejected_gj, h.running_hours, h.average_load_percent
                FROM logsheet_heat_load h JOIN site_system y ON y.id = h.system_id
                WHERE y.code = 'HEA-T1'""")
            .query()
            .singleRow();
    assertThat(row.values()).containsExactly(31.5, null, null);
    assertThat(
            jdbc.sql(
                    """
                    SELECT c.old_json FROM logsheet_correction c
                    JOIN site_system y ON y.id = c.system_id WHERE y.code = 'HEA-T1'""")
                .query(String.class)
                .single())
        .as("the older is kept")
        .contains("running_hours", "20");
  }

  @Test
  void humidityOfAnotherKindForTheSameHourReplacesTheOlder() throws IOException {
    book("HUM");
    take(
        "weather_hours.csv",
        "station,hour_start,dry_bulb_c,wet_bulb_c,pressure_kpa\nHUM-W,2025-07-01T05:00Z,30,20,99\n");

    assertCounts(
        take(
            "weather_hours.csv",
            "station,hour_start,dry_bulb_c,dew_point_c\nHUM-W,2025-07-01T05:00Z,30,18\n"),
        0,
        1,
        0,
        0);

    assertThat(
            jdbc.sql(
                    """
                    SELECT wet_bulb_c, dew_point_c, pressure_kpa FROM weather_hour
                    WHERE station = 'HUM-W'""")
                .query()
                .singleRow()
                .values())
        .containsExactly(null, 18.0, 99.0);
  }

  @Test
  void rowsThatTheLedgerCannotReckonWithWait() throws IOException {
    book("WAI");

    FileReceipt visits =
        take(
            "visits.csv",
            """
            system,visited_at,events,findings
            WAI-T1,2025-07-01T08:00,start-up,overflow-dry;Level-Normal
            WAI-T1,2025-07-02T08:00,start-up,overflow-dry;odd-smell
            WAI-T1,2025-07-03T08:00,party,
            """);
    FileReceipt heat =
        take(
            "heat_loads.csv",
            """
            system,start,end,hot_water_f,cold_water_f,water_flow_gpm
            WAI-T1,2025-07-01,2025-07-02,95,85,600
            WAI-T1,2025-07-02,2025-07-03,85,95,600
            """);

    assertCounts(visits, 1, 0, 0, 2);
    assertThat(visits.reasons().get(0))
        .startsWith("line 3: finding 'odd-smell' is not on the list");
    assertThat(visits.reasons().get(1)).startsWith("line 4: event 'party' is not on the list");
    assertCounts(heat, 1, 0, 0, 1);
    assertThat(heat.reasons().get(0)).contains("is below the cold water");
  }
}
