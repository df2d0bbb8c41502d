package towerledger.api;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.hasItem;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.multipart;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.jsonPath;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.mock.web.MockMultipartFile;
import org.springframework.test.web.servlet.MockMvc;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;
import towerledger.account.Viewer;

/** A customer's own spreadsheet: looked at, mapped, taken, and remembered. */
@ApplicationOnH2
class ForeignTableIT {

  private static final String SHEET =
      """
      Meter ID,Read Date,Meter Reading
      FRT-MU,3/31/2025 1:05 PM,"1,234"
      FRT-MU,4/30/2025 9:00 AM,"1,300"
      FRT-NONE,4/30/2025 9:00 AM,7
      """;

  private static final String NEXT_SHEET =
      "Meter ID,Read Date,Meter Reading\nFRT-MU,5/2/2025 9:00 AM,\"1,350\"\n";

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;

  @Test
  void sheetIsPreviewedMappedTakenAndRemembered() throws Exception {
    takeBook();
    Viewer office = signedIn.office();

    // what it would become
    mvc.perform(
            multipart("/api/v1/foreign-tables/preview")
                .file(sheet(SHEET))
                .param("target", "register_readings")
                .param("sender", "FRT facilities")
                .with(signedIn.api(office)))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.remembered").value(false))
        .andExpect(jsonPath("$.questions.length()").value(0))
        .andExpect(jsonPath("$.mapping.columns[1].pattern").value("M/d/uuuu h:mm a"))
        .andExpect(jsonPath("$.rows[0].becomes[1]").value("2025-03-31T13:05:00"))
        .andExpect(jsonPath("$.rows[0].problem").value(""))
        .andExpect(jsonPath("$.rows[2].problem", containsString("'FRT-NONE' is not known")));

    // taken by the mapping that the preview suggested
    mvc.perform(
            multipart("/api/v1/foreign-tables")
                .file(sheet(SHEET))
                .param("sender", "FRT facilities")
                .param(
                    "mapping",
                    """
                    {"file": "register_readings", "columns": [
                      {"column": "meter", "from": "Meter ID"},
                      {"column": "read_at", "from": "Read Date", "pattern": "M/d/uuuu h:mm a"},
                      {"column": "register", "from": "Meter Reading"}]}""")
                .with(signedIn.api(office)))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.files[0].file").value("register_readings.csv"))
        .andExpect(jsonPath("$.files[0].added").value(2))
        .andExpect(jsonPath("$.files[0].quarantined").value(1))
        .andExpect(jsonPath("$.files[0].reasons", hasItem(containsString("line 4"))));

    // the next sheet of the same sender needs no mapping, though its one date could be read twice
    mvc.perform(
            multipart("/api/v1/foreign-tables")
                .file(sheet(NEXT_SHEET))
                .param("sender", "frt Facilities ")
                .with(signedIn.api(office)))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.files[0].added").value(1));
  }

  @Test
  void withoutMappingNothingIsTaken() throws Exception {
    mvc.perform(
            multipart("/api/v1/foreign-tables")
                .file(sheet("x,y\n1,2\n"))
                .param("sender", "FRT stranger")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isUnprocessableContent())
        .andExpect(jsonPath("$.detail", containsString("look at the preview first")));
    mvc.perform(
            multipart("/api/v1/foreign-tables/preview")
                .file(sheet("x,y\n1,2\n"))
                .param("target", "no_such_file")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isUnprocessableContent())
        .andExpect(jsonPath("$.detail", containsString("'no_such_file' are not known")));
    mvc.perform(
            multipart("/api/v1/foreign-tables")
                .file(sheet("x,y\n1,2\n"))
                .param("mapping", "{\"file\": 3")
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isBadRequest());
  }

  @Test
  void customersMapReadingsButNoEquipment() throws Exception {
    Viewer customer = signedIn.customer("frt@customer.example", "FRT-C", true);
    mvc.perform(
            multipart("/api/v1/foreign-tables/preview")
                .file(sheet("Customer,Name\n1,2\n"))
                .param("target", "customers")
                .with(signedIn.api(customer)))
        .andExpect(status().isForbidden());
  }

  private void takeBook() throws Exception {
    mvc.perform(
            multipart("/api/v1/imports")
                .file(part("customers.csv", "customer,name\nFRT,Customer\n"))
                .file(
                    part(
                        "sites.csv",
                        "site,customer,name,time_zone\nFRT-S,FRT,Site,America/Chicago\n"))
                .file(part("towers.csv", "tower,site,name,nominal_tons\nFRT-T,FRT-S,Tower,300\n"))
                .file(part("meters.csv", "meter,system,role,unit\nFRT-MU,FRT-T,makeup,gal\n"))
                .with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk());
  }

  private static MockMultipartFile sheet(String text) {
    return part("sheet.csv", text);
  }

  private static MockMultipartFile part(String name, String text) {
    return new MockMultipartFile("file", name, "text/csv", text.getBytes(StandardCharsets.UTF_8));
  }
}
