package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.multipart;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockMultipartFile;
import org.springframework.test.web.servlet.ResultActions;
import towerledger.ApplicationOnH2;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.account.Viewer;

/** Handing files in by the page, and mending what could not be taken. */
@ApplicationOnH2
class IntakePagesIT extends PageCases {

  @Test
  void takesFilesAndMendsTheRowThatWaits() throws Exception {
    String receipt =
        handIn(
                file("customers.csv", "customer,name\nMEND-C,Alder Mills\n"),
                file(
                    "sites.csv",
                    """
                    site,customer,name,time_zone
                    MEND-S1,MEND-C,Plant,America/Chicago
                    MEND-S2,MEND-C,"Annex, <b>north</b>",America/Nowhere
                    """))
            .andExpect(status().is3xxRedirection())
            .andReturn()
            .getResponse()
            .getRedirectedUrl();

    assertThat(lead(open(receipt)))
        .isEqualTo(
            "3 rows came in: 2 added something, none changed anything, one waits to be mended.");
    assertThat(open(receipt)).contains("href=\"" + receipt + "/waiting/sites\"");
    String desk = open("/intake");
    assertThat(desk)
        .contains("id=\"waiting\"")
        .contains("sites, line 3")
        .doesNotContain("<b>north</b>");
    String row = group("href=\"(/intake/quarantine/[0-9]+)\">sites, line 3", desk);
    assertThat(open(row))
        .contains("It waits: ")
        .contains("value=\"America/Nowhere\"")
        .contains("value=\"Annex, &lt;b&gt;north&lt;/b&gt;\"");

    String still =
        mend(row, "America/Elsewhere")
            .andExpect(status().isUnprocessableContent())
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertThat(still).contains("value=\"America/Elsewhere\"");
    mend(row, "America/Denver").andExpect(redirectedUrl("/intake"));

    assertThat(count("SELECT COUNT(*) FROM site_site WHERE code = 'MEND-S2'")).isEqualTo(1);
    assertThat(open("/intake")).doesNotContain("sites, line 3");
    assertThat(open(row)).contains("This row was mended by " + signedIn.adminEmail());
    assertThat(open(receipt)).doesNotContain("/waiting/");
  }

  @Test
  void dropsARowAndKeepsItOnRecord() throws Exception {
    handIn(file("sites.csv", "site,customer,name,time_zone\nDROP-S,DROP-NOBODY,Plant,UTC\n"));
    long id =
        jdbc.sql("SELECT id FROM intake_quarantine WHERE raw LIKE 'DROP-S%'")
            .query(Long.class)
            .single();

    mvc.perform(post("/intake/quarantine/" + id + "/drop").with(SignedIn.page(signedIn.office())))
        .andExpect(redirectedUrl("/intake"));

    assertThat(open("/intake/quarantine/" + id)).contains("This row was dropped by ");
    assertThat(open("/intake")).doesNotContain("DROP-S");
  }

  @Test
  void saysWhyAnUploadIsRefused() throws Exception {
    assertThat(text(handIn(file("", "")))).contains("Choose a file first");
    assertThat(text(handIn(file("gossip.csv", "a,b\n1,2\n"))))
        .contains("file ‘gossip.csv’ is not known")
        .contains("nothing was taken");
    assertThat(text(handIn(file("broken.zip", "PK\u0003\u0004 and no more"))))
        .contains("is no whole ZIP file");
  }

  @Test
  void isTheOfficesAlone() throws Exception {
    Viewer technician = signedIn.technician("roof@mend.test");
    for (String path : new String[] {"/intake", "/intake/imports/x", "/intake/quarantine/1"}) {
      asksFor(path, technician, status().isForbidden());
    }
    asksFor("/intake/imports/x", signedIn.office(), status().isNotFound());
    asksFor("/intake/quarantine/999999999", signedIn.office(), status().isNotFound());
  }

  private ResultActions handIn(MockMultipartFile... files) throws Exception {
    var request = multipart("/intake");
    for (MockMultipartFile file : files) {
      request.file(file);
    }
    return mvc.perform(request.with(SignedIn.page(signedIn.office())));
  }

  private ResultActions mend(String row, String zone) throws Exception {
    return mvc.perform(
        post(row)
            .with(SignedIn.page(signedIn.office()))
            .param("cell-0", "MEND-S2")
            .param("cell-1", "MEND-C")
            .param("cell-2", "Annex, north")
            .param("cell-3", zone));
  }

  private static String text(ResultActions refused) throws Exception {
    return refused
        .andExpect(status().isUnprocessableContent())
        .andReturn()
        .getResponse()
        .getContentAsString(StandardCharsets.UTF_8);
  }

  private static MockMultipartFile file(String name, String content) {
    return new MockMultipartFile(
        "file", name, "text/csv", content.getBytes(StandardCharsets.UTF_8));
  }
}
