package towerledger.api;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.hasItem;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.jsonPath;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.ResultActions;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;

/** Utility bills checked and credits claimed over the wire, and the equipment behind them. */
@ApplicationOnH2
class SiteBillsIT {

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;

  @BeforeEach
  void takeTheBook() throws Exception {
    mvc.perform(
            post("/api/v1/imports")
                .contentType("application/zip")
                .content(book())
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk());
  }

  /**
   * By hand: 300 kgal through the service meter. The water bill counts 3,000 (a multiplier of ten)
   * at 4.00; the sewer bill counts 300 at 5.00 and gives no credit, though makeup − blowdown is 200
   * − 50 = 150 kgal, worth 750.00.
   */
  @Test
  void findsTheMultiplierAndTheMissingCredit() throws Exception {
    ask("/api/v1/sites/SBI-S/bill-check?from=2025-07&to=2025-07")
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.length()").value(2))
        .andExpect(jsonPath("$[0].service").value("water"))
        .andExpect(jsonPath("$[0].billed_units").value(3000))
        .andExpect(jsonPath("$[0].metered_units").value(300.0))
        .andExpect(jsonPath("$[0].usage_gap").value(2700.0))
        .andExpect(jsonPath("$[0].amount_gap").value(0.0))
        .andExpect(jsonPath("$[0].reasons[0].kind").value("wrong-multiplier"))
        .andExpect(jsonPath("$[1].service").value("sewer"))
        .andExpect(jsonPath("$[1].credit_due").value(750.0))
        .andExpect(jsonPath("$[1].reasons[*].kind", hasItem("missing-credit")));
  }

  @Test
  void claimsTheCreditWithItsReadings() throws Exception {
    ask("/api/v1/sites/SBI-S/credit-claims")
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.length()").value(1))
        .andExpect(jsonPath("$[0].rule").value("makeup-minus-blowdown"))
        .andExpect(jsonPath("$[0].deadline").value("by 1 March"))
        .andExpect(jsonPath("$[0].credit_units").value(150.0))
        .andExpect(jsonPath("$[0].credit_due").value(750.0))
        .andExpect(jsonPath("$[0].credit_claimed").value(0.0))
        .andExpect(jsonPath("$[0].credit_unclaimed").value(750.0))
        .andExpect(
            jsonPath(
                "$[0].working",
                hasItem("SBI-T1: makeup 200.00 kgal − blowdown 50.00 kgal = 150.00 kgal")))
        .andExpect(jsonPath("$[0].evidence[*].source", hasItem("meter SBI-BD (blowdown)")))
        .andExpect(jsonPath("$[0].disclosures", hasItem(containsString("model"))));
  }

  @Test
  void tellsTheSystemItsMetersAndTheNearestStation() throws Exception {
    ask("/api/v1/systems/SBI-T1")
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.site").value("SBI-S"))
        .andExpect(jsonPath("$.towers[0].nominal_tons").value(300.0))
        .andExpect(jsonPath("$.meters.length()").value(2))
        .andExpect(jsonPath("$.settings[0].setting").value("target_cycles"));
    ask("/api/v1/systems")
        .andExpect(status().isOk())
        .andExpect(jsonPath("$[*].system", hasItem("SBI-T1")));
    ask("/api/v1/sites/SBI-S")
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.systems[0]").value("SBI-T1"))
        .andExpect(jsonPath("$.nearest_stations[0].station").value("SBI-NEAR"))
        .andExpect(jsonPath("$.nearest_stations[0].kilometres").value(11.1));
  }

  @Test
  void aSettingOfATowerThatNobodyKnowsTheStartOfHoldsAlways() throws Exception {
    mvc.perform(
            post("/api/v1/imports?file=towers")
                .contentType("text/csv")
                .content("tower,site,name,nominal_tons,target_cycles\nSBI-T2,SBI-S,Old one,90,5\n")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.files[0].quarantined").value(0));
    ask("/api/v1/systems/SBI-T2")
        .andExpect(jsonPath("$.settings[0].value").value("5.0"))
        .andExpect(jsonPath("$.settings[0].effective_from").value("1970-01-01"));
  }

  @Test
  void monthsInTheWrongOrderAreRefused() throws Exception {
    for (String path : new String[] {"/api/v1/ledger", "/api/v1/ledger.csv"}) {
      ask(path + "?from=2025-08&to=2025-07")
          .andExpect(status().isBadRequest())
          .andExpect(jsonPath("$.detail").value(containsString("exchange them")));
    }
    mvc.perform(
            post("/api/v1/reconciliations")
                .contentType("application/json")
                .content("{\"from\": \"2025-08\", \"to\": \"2025-07\"}")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isBadRequest());
  }

  @Test
  void anotherCustomersSiteIsNotThere() throws Exception {
    var stranger = signedIn.customer("sbi@stranger.example", "SBI-OTHER");
    for (String path :
        new String[] {
          "/sites/SBI-S/bill-check", "/sites/SBI-S/credit-claims", "/sites/SBI-S", "/systems/SBI-T1"
        }) {
      mvc.perform(get("/api/v1" + path).with(signedIn.api(stranger)))
          .andExpect(status().isNotFound());
    }
    mvc.perform(get("/api/v1/systems").with(signedIn.api(stranger)))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.length()").value(0));
  }

  private ResultActions ask(String path) throws Exception {
    return mvc.perform(get(path).with(signedIn.api(signedIn.office())));
  }

  private static byte[] book() throws Exception {
    String[] files = {
      "customers.csv", "customer,name\nSBI,Customer\n",
      "sites.csv",
          "site,customer,name,time_zone,latitude_deg,longitude_deg,water_schedule,sewer_schedule\n"
              + "SBI-S,SBI,Site,America/Chicago,10.0,20.0,SBI-W,SBI-R\n",
      "towers.csv",
          "tower,site,name,nominal_tons,started_on,target_cycles\n"
              + "SBI-T1,SBI-S,Tower,300,2020-01-01,4\n",
      "meters.csv",
          "meter,system,site,role,unit\n"
              + "SBI-SV,,SBI-S,service,kgal\n"
              + "SBI-MU,SBI-T1,,makeup,kgal\n"
              + "SBI-BD,SBI-T1,,blowdown,kgal\n",
      "register_readings.csv",
          "meter,read_at,register\n"
              + "SBI-SV,2025-07-01T00:00,100\nSBI-SV,2025-08-01T00:00,400\n"
              + "SBI-MU,2025-07-01T00:00,50\nSBI-MU,2025-08-01T00:00,250\n"
              + "SBI-BD,2025-07-01T00:00,10\nSBI-BD,2025-08-01T00:00,60\n",
      "weather_stations.csv",
          "station,latitude_deg,longitude_deg\nSBI-FAR,12.0,20.0\nSBI-NEAR,10.1,20.0\n",
      "rate_schedules.csv",
          "schedule,service,effective_from,billing_unit,evaporation_credit,credit_deadline\n"
              + "SBI-W,water,2025-01-01,kgal,,\n"
              + "SBI-R,sewer,2025-01-01,kgal,makeup-minus-blowdown,by 1 March\n",
      "rate_blocks.csv",
          "schedule,effective_from,from_units,rate\n"
              + "SBI-W,2025-01-01,0,4.00\nSBI-R,2025-01-01,0,5.00\n",
      "utility_bills.csv",
          "site,service,from,to,units,amount,credit_amount\n"
              + "SBI-S,water,2025-07-01,2025-08-01,3000,12000.00,\n"
              + "SBI-S,sewer,2025-07-01,2025-08-01,300,1500.00,0\n"
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
}
