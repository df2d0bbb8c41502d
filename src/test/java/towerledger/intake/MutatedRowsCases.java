package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import towerledger.SignedIn;

/**
 * A hundred thousand spoiled rows of every file: none stops an import, none is lost, and all of
 * them come out the same a second time.
 */
abstract class MutatedRowsCases {

  private static final long SEED = 20261125;
  private static final Map<String, String[]> FILES = new LinkedHashMap<>();

  /** A cell of a megabyte in one row of so many. */
  private static final int HUGE_EVERY = 3000;

  private final int rowsAFile;
  private final HttpClient http = HttpClient.newHttpClient();

  MutatedRowsCases(int rowsAFile) {
    this.rowsAFile = rowsAFile;
  }

  static {
    FILES.put(
        "customers",
        row("customer,name,contact_name,report_emails,currency", "MUTC%d,N,C,a@b.example,USD"));
    FILES.put(
        "sites",
        row(
            "site,customer,name,time_zone,latitude_deg,longitude_deg,elevation_ft,station,water_schedule,sewer_schedule,service_meter_size_in",
            "MUTS%d,MUT,Site,America/Chicago,41.1,-87.2,600,MUT-W,MUT-R,MUT-R,4"));
    FILES.put(
        "systems",
        row(
            "system,site,name,kind,system_volume_gal,heat_source,waterside_economizer,building_use,occupied_from,occupied_to,occupied_days,idle_months",
            "MUTY%d,MUT-S,System,open,5000,electric-chiller,false,office,07:00,18:30,Mon-Fri,12-2"));
    FILES.put(
        "towers",
        row(
            "tower,site,name,system,cells,nominal_tons,design_hot_water_f,design_cold_water_f,design_wet_bulb_f,fan_control,started_on,target_cycles",
            "MUTT%d,MUT-S,Tower,,2,300,95,85,78,variable-speed,2019-05-01,4.5"));
    FILES.put(
        "settings",
        row(
            "system,effective_from,setting,value,reason",
            "MUT-T1,2024-01-01,target_cycles,3.%d,agreed"));
    FILES.put(
        "meters",
        row(
            "meter,system,role,unit,multiplier,register_digits,size_in,type,installed_at,first_register",
            "MUTM%d,MUT-T1,other-use,kgal,1,6,2,turbine,2024-01-01T00:00,0"));
    FILES.put(
        "rate_schedules",
        row(
            "schedule,service,effective_from,billing_unit,months_per_bill,tax_percent,sewer_basis,evaporation_credit",
            "MUTR%d,water,2024-01-01,kgal,1,2.5,,none"));
    FILES.put(
        "rate_charges",
        row(
            "schedule,effective_from,charge,meter_size_in,amount",
            "MUTR%d,2024-01-01,Service,2,31.5"));
    FILES.put(
        "rate_blocks",
        row(
            "schedule,effective_from,first_month,last_month,from_units,rate",
            "MUTR%d,2024-01-01,,,0,4.5"));
    FILES.put(
        "utility_bills",
        row(
            "site,service,from,to,units,amount,estimated",
            "MUTS%d,water,2024-%m-01,2024-%m-28,%d,99.5,false"));
    FILES.put(
        "weather_hours",
        row("station,hour_start,dry_bulb_f,wet_bulb_f,pressure_inhg", "MUT-W,%h,80.5,70.1,29.5"));
    FILES.put(
        "register_readings", row("meter,read_at,register,kind,note", "MUT-MU,%h,%d,actual,fine"));
    FILES.put("interval_volumes", row("meter,start,minutes,volume_gal", "MUT-MU,%h,60,%d.5"));
    FILES.put(
        "water_samples",
        row(
            "system,taken_at,makeup_conductivity_us_cm,basin_conductivity_us_cm",
            "MUT-T1,%h,400,1600"));
    FILES.put(
        "pressure_readings", row("system,taken_at,supply_psi,valve_inlet_psi", "MUT-T1,%h,70,60"));
    FILES.put("heat_loads", row("system,start,end,heat_rejected_mmbtu", "MUT-T1,%h,%i,12.5"));
    FILES.put(
        "visits",
        row(
            "system,visited_at,events,drained_gal,observation",
            "MUT-T1,%h,basin-drained,500,calm"));
  }

  private static String[] row(String header, String row) {
    return new String[] {header, row};
  }

  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;
  @LocalServerPort int port;

  @Test
  void losesNoSpoiledRowAndTellsTheSameTwice() throws Exception {
    String token = signedIn.token(signedIn.office());
    take(token, "", "application/zip", Uploads.book("MUT"), new ArrayList<>());
    var spoiled = spoiled();
    var imports = new ArrayList<String>();

    // once as a bundle, once file by file, both over HTTP
    List<FileReceipt> first = take(token, "", "application/zip", Uploads.zip(spoiled), imports);
    List<FileReceipt> second = new ArrayList<>();
    for (String file : first.stream().map(FileReceipt::file).toList()) {
      second.addAll(take(token, "?file=" + file, "text/csv", spoiled.get(file), imports));
    }

    assertThat(first).hasSize(FILES.size());
    assertThat(first.stream().mapToLong(FileReceipt::rows).sum())
        .as("seed %d", SEED)
        .isEqualTo((long) FILES.size() * rowsAFile);
    for (int i = 0; i < first.size(); i++) {
      FileReceipt one = first.get(i);
      FileReceipt two = second.get(i);
      assertThat(one.rows()).as(one.file()).isEqualTo(rowsAFile);
      assertThat(one.quarantined())
          .as(one.file())
          .isBetween(rowsAFile / 60L, rowsAFile * 92L / 100);
      for (FileReceipt each : List.of(one, two)) {
        assertThat(each.added() + each.changed() + each.unchanged() + each.quarantined())
            .as("%s", each)
            .isEqualTo(each.rows());
      }
      assertThat(two.rows()).as(one.file()).isEqualTo(one.rows());
      assertThat(two.added()).as("seed %d: %s then %s", SEED, one, two).isZero();
      assertThat(waiting(one.file().replace(".csv", ""), imports))
          .as(one.file())
          .isEqualTo(two.quarantined());
    }
    assertThat(stored("meter_interval_volume"))
        .isEqualTo(receipt(first, "interval_volumes").added());
    assertThat(stored("logsheet_pressure")).isEqualTo(receipt(first, "pressure_readings").added());
  }

  private static FileReceipt receipt(List<FileReceipt> receipts, String file) {
    return receipts.stream().filter(f -> f.file().equals(file + ".csv")).findFirst().orElseThrow();
  }

  private long waiting(String file, List<String> imports) {
    return jdbc.sql(
            """
            SELECT COUNT(*) FROM intake_quarantine
            WHERE file = :file AND status = 'waiting' AND import_id IN (:imports)""")
        .param("file", file)
        .param("imports", imports)
        .query(Long.class)
        .single();
  }

  /** Rows of the customer, whatever codes spoiled rows gave to new systems and meters. */
  private long stored(String table) {
    return jdbc.sql(
            "SELECT COUNT(*) FROM %s t JOIN account_customer c ON c.id = t.customer_id WHERE c.code = 'MUT'"
                .formatted(table))
        .query(Long.class)
        .single();
  }

  private Map<String, byte[]> spoiled() {
    var mutations = new Mutations(SEED);
    var files = new LinkedHashMap<String, byte[]>();
    Instant start = Instant.parse("2024-01-01T00:00:00Z");
    FILES.forEach(
        (file, rows) -> {
          var text = new StringBuilder(rows[0]).append('\n');
          for (int i = 0; i < rowsAFile; i++) {
            String good =
                rows[1]
                    .replace("%d", Integer.toString(i))
                    .replace("%m", "%02d".formatted(i % 12 + 1))
                    .replace("%h", start.plusSeconds(3600L * i).toString())
                    .replace("%i", start.plusSeconds(3600L * (i + 1)).toString());
            // nine rows in ten are spoiled, the others must still go in
            text.append(i % 10 == 0 ? good : mutations.spoil(good));
            text.append(i % HUGE_EVERY == 7 ? "x".repeat(1 << 20) : "").append('\n');
          }
          files.put(file + ".csv", Mutations.bytes(text.toString()));
        });
    return files;
  }

  private List<FileReceipt> take(
      String token, String query, String type, byte[] body, List<String> imports) throws Exception {
    HttpResponse<String> answer =
        http.send(
            HttpRequest.newBuilder(
                    URI.create("http://localhost:" + port + "/api/v1/imports" + query))
                .header("Authorization", "Bearer " + token)
                .header("Content-Type", type)
                .POST(HttpRequest.BodyPublishers.ofByteArray(body))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(answer.statusCode()).as("%s: %s", query, answer.body()).isEqualTo(200);
    JsonNode receipt = JsonMapper.shared().readTree(answer.body());
    imports.add(receipt.get("id").asString());
    var files = new ArrayList<FileReceipt>();
    for (JsonNode file : receipt.get("files")) {
      files.add(JsonMapper.shared().treeToValue(file, FileReceipt.class));
    }
    return files;
  }
}
