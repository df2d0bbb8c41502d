package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.multipart;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockMultipartFile;
import towerledger.ApplicationOnH2;
import towerledger.PageCases;

/** The page of a site's bills: checked, what is unclaimed, and five years of it. */
@ApplicationOnH2
class BillsPageIT extends PageCases {

  @Test
  void showsWhatIsUnclaimedAndTheOneClaimToPrint() throws Exception {
    takeBook();

    String page = open("/sites/BPG-S/bills");

    assertThat(page).contains("$750.00").contains("href=\"/credits/BPG-S/2025\"");
    assertThat(lead(page)).contains("One utility bill is kept").contains("One sewer bill earns");
    assertThat(open("/rates/BPG-R")).contains("href=\"/sites/BPG-S/bills\"");
    // by hand: 200 − 50 = 150 kgal at 5.00 a kgal
    assertThat(open("/credits/BPG-S/2025"))
        .containsSubsequence("BPG-T1", ">200.00<", ">50.00<", ">150.00<")
        .contains("Makeup, kgal")
        .contains("$750.00")
        .contains("by 1 March")
        .contains("meter BPG-BD (blowdown)")
        .contains(">Jul 1, 2025, 12:00")
        .doesNotContain("2025-07-01 00:00");
  }

  @Test
  void projectsFiveYearsAtAnybodysOwnRise() throws Exception {
    takeBook();

    String usual = open("/sites/BPG-S/bills");
    String own = open("/sites/BPG-S/bills?rise=10");

    // by hand: 750 five times over; 750 × (1 + 1.1 + 1.21 + 1.331 + 1.4641) = 4,578.83; the bill of
    // 1,500 is twice that
    assertThat(usual).contains("$3,750").contains("$7,500").doesNotContain("your 10");
    assertThat(groups("(Less than a year of it is known)", usual))
        .as("one bill of a month, and what it left unclaimed, are no year")
        .hasSize(2);
    assertThat(own).contains("your 10.0 % a year").contains("$4,579").contains("$9,158");
    assertThat(open("/sites/BPG-S/bills?rise=6.5")).contains("your 6.5 % a year");
    assertThat(open("/sites/BPG-S/bills?rise=6,5"))
        .as("may mean two things, here as in every other field")
        .contains("for instance 6.5");
    assertThat(open("/sites/BPG-S/bills?rise=140"))
        .contains("Give a percentage from −50 to 100")
        .contains("value=\"140\"")
        .contains("$3,750");
  }

  @Test
  void saysThatThereAreNoBillsAndHidesOthersSites() throws Exception {
    takeBook();

    assertThat(lead(open("/sites/BPG-E/bills"))).contains("No utility bill is kept");
    asksFor(
        "/sites/BPG-S/bills",
        signedIn.customer("bpg@stranger.example", "BPG-OTHER"),
        status().is4xxClientError());
    asksFor("/sites/NO-SUCH/bills", signedIn.office(), status().isNotFound());
  }

  private void takeBook() throws Exception {
    mvc.perform(
            multipart("/api/v1/imports")
                .file(part("customers.csv", "customer,name\nBPG,Customer\n"))
                .file(
                    part(
                        "sites.csv",
                        "site,customer,name,time_zone,sewer_schedule\n"
                            + "BPG-S,BPG,Mill,America/Chicago,BPG-R\n"
                            + "BPG-E,BPG,Empty,America/Chicago,\n"))
                .file(part("towers.csv", "tower,site,name,nominal_tons\nBPG-T1,BPG-S,Tower,300\n"))
                .file(
                    part(
                        "meters.csv",
                        "meter,system,role,unit\nBPG-MU,BPG-T1,makeup,kgal\nBPG-BD,BPG-T1,blowdown,kgal\n"))
                .file(
                    part(
                        "register_readings.csv",
                        "meter,read_at,register\n"
                            + "BPG-MU,2025-07-01T00:00,50\nBPG-MU,2025-08-01T00:00,250\n"
                            + "BPG-BD,2025-07-01T00:00,10\nBPG-BD,2025-08-01T00:00,60\n"))
                .file(
                    part(
                        "rate_schedules.csv",
                        "schedule,service,effective_from,billing_unit,evaporation_credit,credit_deadline\n"
                            + "BPG-R,sewer,2025-01-01,kgal,makeup-minus-blowdown,by 1 March\n"))
                .file(
                    part(
                        "rate_blocks.csv",
                        "schedule,effective_from,from_units,rate\nBPG-R,2025-01-01,0,5.00\n"))
                .file(
                    part(
                        "utility_bills.csv",
                        "site,service,from,to,units,amount,credit_amount\n"
                            + "BPG-S,sewer,2025-07-01,2025-08-01,300,1500.00,0\n"))
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk());
  }

  private static MockMultipartFile part(String name, String text) {
    return new MockMultipartFile("file", name, "text/csv", text.getBytes(StandardCharsets.UTF_8));
  }
}
