package towerledger.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.hasItem;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.jsonPath;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MockMvc;
import towerledger.SignedIn;

/**
 * Meters below meters: two makeup meters are summed, a sub-meter of one of them is not counted
 * again, water drawn behind them is subtracted once, and what never passed them is not.
 */
abstract class MeterNetworkCases {

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;

  @BeforeEach
  void takeTheBook() throws Exception {
    mvc.perform(
            post("/api/v1/imports")
                .contentType("application/zip")
                .content(book())
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.files[*].quarantined", hasItem(0)));
  }

  /** By hand: makeup 200 + 100, other use 20 + 5 of it; the sub-meters see 80 and 7 of the same. */
  @Test
  void ledgerCountsEveryLitreOnce() throws Exception {
    Map<String, String> july = july();

    assertThat(Double.parseDouble(july.getOrDefault("makeup_gal", "")))
        .isCloseTo(300_000, within(1.0));
    assertThat(Double.parseDouble(july.getOrDefault("other_use_gal", "")))
        .isCloseTo(25_000, within(1.0));
    assertThat(Double.parseDouble(july.getOrDefault("blowdown_gal", "")))
        .isCloseTo(50_000, within(1.0));
  }

  /** By hand: (300 − 25) − 50 = 225 kgal at 5.00. */
  @Test
  void creditIsClaimedForTheTowersOwnWaterOnly() throws Exception {
    mvc.perform(get("/api/v1/sites/MNW-S/credit-claims").with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$[0].credit_units").value(225.0))
        .andExpect(jsonPath("$[0].credit_due").value(1125.0))
        .andExpect(
            jsonPath(
                "$[0].working",
                hasItem("MNW-T1: makeup 275.00 kgal − blowdown 50.00 kgal = 225.00 kgal")));
  }

  /** By hand: the service meter counts 500 kgal, its sub-meter 90 of them again. */
  @Test
  void serviceSubMeterIsNotAddedToTheBill() throws Exception {
    mvc.perform(get("/api/v1/sites/MNW-S/bill-check").with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$[0].service").value("water"))
        .andExpect(jsonPath("$[0].metered_units").value(500.0));
  }

  @Test
  void parentThatIsNotThereIsSaid() throws Exception {
    mvc.perform(get("/api/v1/systems/MNW-T2").with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.meters[0].remarks[*].kind", hasItem("parent-unknown")))
        .andExpect(jsonPath("$.meters[0].remarks[*].words", hasItem(containsString("MNW-NONE"))));
  }

  private Map<String, String> july() throws Exception {
    Instant end = Instant.now().plus(Duration.ofSeconds(60));
    while (Instant.now().isBefore(end)) {
      List<String> lines =
          mvc.perform(
                  get("/api/v1/ledger.csv?from=2025-07&to=2025-07&system=MNW-T1")
                      .with(signedIn.api(signedIn.office())))
              .andReturn()
              .getResponse()
              .getContentAsString()
              .lines()
              .toList();
      if (lines.size() > 1) {
        String[] names = lines.get(0).split(",", -1);
        String[] cells = lines.get(1).split(",", -1);
        var row = new LinkedHashMap<String, String>();
        for (int i = 0; i < names.length; i++) {
          row.put(names[i], cells[i]);
        }
        return row;
      }
      Thread.sleep(200);
    }
    throw new AssertionError("July was not reckoned within a minute");
  }

  private static byte[] book() throws Exception {
    String[] files = {
      "customers.csv", "customer,name\nMNW,Customer\n",
      "sites.csv",
          "site,customer,name,time_zone,water_schedule,sewer_schedule\n"
              + "MNW-S,MNW,Site,America/Chicago,MNW-W,MNW-R\n",
      "towers.csv",
          "tower,site,name,nominal_tons,started_on,target_cycles\n"
              + "MNW-T1,MNW-S,Tower,600,2020-01-01,4\nMNW-T2,MNW-S,Tower,300,2020-01-01,4\n",
      "meters.csv",
          """
          meter,system,site,role,unit,parent_meter
          MNW-SV,,MNW-S,service,kgal,
          MNW-SV-SUB,,MNW-S,service,kgal,MNW-SV
          MNW-A,MNW-T1,,makeup,kgal,MNW-SV
          MNW-B,MNW-T1,,makeup,kgal,MNW-SV
          MNW-A-SUB,MNW-T1,,makeup,kgal,MNW-A
          MNW-O1,MNW-T1,,other-use,kgal,MNW-A
          MNW-O2,MNW-T1,,other-use,kgal,MNW-A-SUB
          MNW-O1-SUB,MNW-T1,,other-use,kgal,MNW-O1
          MNW-O-SV,MNW-T1,,other-use,kgal,MNW-SV
          MNW-BD,MNW-T1,,blowdown,kgal,MNW-A
          MNW-BD-SUB,MNW-T1,,blowdown,kgal,MNW-BD
          MNW-LOST,MNW-T2,,makeup,kgal,MNW-NONE
          """,
      "register_readings.csv",
          "meter,read_at,register\n"
              + july("SV", 500)
              + july("SV-SUB", 90)
              + july("A", 200)
              + july("B", 100)
              + july("A-SUB", 80)
              + july("O1", 20)
              + july("O2", 5)
              + july("O1-SUB", 7)
              + july("O-SV", 40)
              + july("BD", 50)
              + july("BD-SUB", 10),
      "rate_schedules.csv",
          "schedule,service,effective_from,billing_unit,evaporation_credit\n"
              + "MNW-W,water,2025-01-01,kgal,\n"
              + "MNW-R,sewer,2025-01-01,kgal,makeup-minus-blowdown\n",
      "rate_blocks.csv",
          "schedule,effective_from,from_units,rate\n"
              + "MNW-W,2025-01-01,0,4.00\nMNW-R,2025-01-01,0,5.00\n",
      "utility_bills.csv",
          "site,service,from,to,units,amount,credit_amount\n"
              + "MNW-S,water,2025-07-01,2025-08-01,500,2000.00,\n"
              + "MNW-S,sewer,2025-07-01,2025-08-01,500,2500.00,0\n"
    };
    var bytes = new ByteArrayOutputStream();
    try (var zip = new ZipOutputStream(bytes)) {
      for (int i = 0; i < files.length; i += 2) {
        zip.putNextEntry(new ZipEntry(files[i]));
        zip.write(files[i + 1].getBytes(StandardCharsets.UTF_8));
      }
    }
    return bytes.toByteArray();
  }

  private static String july(String meter, int volume) {
    return "MNW-%1$s,2025-07-01T00:00,100\nMNW-%1$s,2025-08-01T00:00,%2$d\n"
        .formatted(meter, 100 + volume);
  }
}
