package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.multipart;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockMultipartFile;
import org.springframework.test.web.servlet.ResultActions;
import towerledger.ApplicationOnH2;
import towerledger.PageCases;
import towerledger.SignedIn;

/** A customer's own spreadsheet, mapped on a page without a line of script. */
@ApplicationOnH2
class ForeignPagesIT extends PageCases {

  /** A title, semicolons, decimal commas, the Windows encoding, a gap, slips of typing. */
  private static final String MESSY =
      """
      Lecturas de agua, Café Norte;;;;
      ;;;;
      Meter No;Date;Time;Reading;Comment
      FPG-M;25.03.2025;08:30;1.204,5;ok
      FPG-M;01.04.2025;08:15;1.310,0;
      FPG-M;08.04.2025;09:00;14I0,2;válvula
      FPG-M;30.02.2025;09:00;1.405,2;
      ;;;;
      FPG-X;15.04.2025;08:00;1.501,7;
      """;

  @BeforeEach
  void aMeterIsKnown() throws Exception {
    var request = multipart("/intake");
    for (String[] file :
        new String[][] {
          {"customers.csv", "customer,name\nFPG-C,Café Norte\n"},
          {"sites.csv", "site,customer,name,time_zone\nFPG-S,FPG-C,Plant,America/Denver\n"},
          {"towers.csv", "tower,site,name,nominal_tons\nFPG-T,FPG-S,Tower,200\n"},
          {"meters.csv", "meter,system,role,unit\nFPG-M,FPG-T,makeup,m3\n"}
        }) {
      request.file(
          new MockMultipartFile(
              "file", file[0], "text/csv", file[1].getBytes(StandardCharsets.UTF_8)));
    }
    mvc.perform(request.with(SignedIn.page(signedIn.office())))
        .andExpect(status().is3xxRedirection());
  }

  @Test
  void messySpreadsheetIsMappedLookedAtTakenAndRemembered() throws Exception {
    String page = handIn("lecturas.csv", MESSY, "Cafe Norte");
    String form = open(page);
    assertThat(lead(form)).isEqualTo("Of the first 5 rows, 2 can be taken. Nothing is taken yet.");
    assertThat(form)
        .contains("value=\"d.M.uuuu H:mm\"")
        .contains("would wait: ")
        .contains("1204.5")
        .contains("Suggested from the names of the columns");

    String receipt = redirect(send(page, typed(form), "take"));

    assertThat(lead(open(receipt)))
        .isEqualTo(
            "5 rows came in: 2 added something, none changed anything, 3 wait to be mended.");
    assertThat(
            count(
                "SELECT COUNT(*) FROM intake_table WHERE id = '%s'"
                    .formatted(page.replaceAll(".*/", ""))))
        .isZero();
    assertThat(
            jdbc.sql(
                    "SELECT note FROM meter_register_reading r JOIN site_meter m"
                        + " ON m.id = r.meter_id WHERE m.code = 'FPG-M' AND note = 'ok'")
                .query(String.class)
                .list())
        .hasSize(1);

    String next = open(handIn("mai.csv", MESSY.replace("25.03.2025", "29.04.2025"), "Cafe Norte"));
    assertThat(next).contains("As it was taken from Cafe Norte the last time.");
  }

  @Test
  void whatWasTypedStaysAndEveryFieldSaysWhatIsWrong() throws Exception {
    String page = handIn("typed.csv", MESSY, "");
    Map<String, String> typed = typed(open(page));
    String register = "2";
    typed.put("from-" + register, "");
    typed.put("pattern-1", "d.M.YYYY b");
    typed.put("row", "seventh");

    String refused = text(send(page, typed, "take").andExpect(status().isUnprocessableContent()));

    assertThat(refused)
        .contains("some columns are not settled")
        .contains("every row needs this; choose a column of the table or give one text")
        .contains("date pattern ‘d.M.YYYY b’ is not understood")
        .contains("value=\"d.M.YYYY b\"")
        .contains("give the number of the row that names the columns, 1 to 50")
        .contains("value=\"seventh\"");
    assertThat(count("SELECT COUNT(*) FROM intake_import WHERE origin = 'typed.csv'")).isZero();
  }

  @Test
  void anotherHeaderRowOrDelimiterOffersTheColumnsAnew() throws Exception {
    String page = handIn("cut.csv", "a,b\nMeter,Date,Reading\nFPG-M,2025-05-01,7\n", "");
    Map<String, String> typed = typed(open(page));
    typed.put("row", "1");

    String form = text(send(page, typed, "look").andExpect(status().isOk()));

    assertThat(form).contains(">a</option>").contains(">b</option>");
    assertThat(form).contains("no column of the table was recognized as");
  }

  @Test
  void volumesAreTakenInTheUnitThatWasChosen() throws Exception {
    String page =
        handInAs(
            "log.csv",
            "Meter,Start,Minutes,Volume (m3)\nFPG-M,2025-05-01T00:00Z,60,1.5\n",
            "",
            "interval_volumes");
    Map<String, String> typed = typed(open(page));
    assertThat(typed).containsEntry("unit-3", "m3");
    typed.put("unit-3", "imp_gal");

    redirect(send(page, typed, "take"));

    // 1 imperial gallon = 4.54609 L (Weights and Measures Act 1985, UK)
    assertThat(
            jdbc.sql(
                    "SELECT volume_l FROM meter_interval_volume v JOIN site_meter m"
                        + " ON m.id = v.meter_id WHERE m.code = 'FPG-M'")
                .query(Double.class)
                .single())
        .isCloseTo(1.5 * 4.54609, org.assertj.core.api.Assertions.within(1e-6));
  }

  @Test
  void refusesWhatIsNoTableAndSaysWhy() throws Exception {
    assertThat(text(post("", "", "register_readings"))).contains("no table was chosen");
    assertThat(text(post("sheet.csv", "a,b\n1,2\n", "gossip"))).contains("is not known");
    assertThat(text(post("empty.csv", "\n\n", "register_readings"))).contains("names no columns");
  }

  @Test
  void isTheOfficesAlone() throws Exception {
    var technician = signedIn.technician("roof@foreign.test");
    asksFor("/intake/foreign", technician, status().isForbidden());
    asksFor("/intake/foreign/none", technician, status().isForbidden());
    asksFor("/intake/foreign/none", signedIn.office(), status().isNotFound());
  }

  private String handIn(String name, String content, String sender) throws Exception {
    return handInAs(name, content, sender, "register_readings");
  }

  private String handInAs(String name, String content, String sender, String kind)
      throws Exception {
    return redirect(
        mvc.perform(
            multipart("/intake/foreign")
                .file(table(name, content))
                .param("kind", kind)
                .param("sender", sender)
                .with(SignedIn.page(signedIn.office()))));
  }

  private ResultActions post(String name, String content, String kind) throws Exception {
    return mvc.perform(
            multipart("/intake/foreign")
                .file(table(name, content))
                .param("kind", kind)
                .with(SignedIn.page(signedIn.office())))
        .andExpect(status().isUnprocessableContent());
  }

  private static MockMultipartFile table(String name, String content) {
    return new MockMultipartFile(
        "file", name, "text/csv", content.getBytes(Charset.forName("windows-1252")));
  }

  private ResultActions send(String page, Map<String, String> typed, String button)
      throws Exception {
    var request = org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post(page);
    typed.forEach(request::param);
    return mvc.perform(request.param(button, button).with(SignedIn.page(signedIn.office())));
  }

  /** What a browser would send of a form left as it is. */
  private static Map<String, String> typed(String page) {
    var typed = new LinkedHashMap<String, String>();
    Matcher input = Pattern.compile("<input [^>]*name=\"([^\"]+)\"[^>]*>").matcher(page);
    while (input.find()) {
      Matcher value = Pattern.compile(" value=\"([^\"]*)\"").matcher(input.group());
      typed.put(input.group(1), value.find() ? value.group(1) : "");
    }
    Matcher select =
        Pattern.compile("(?s)<select [^>]*name=\"([^\"]+)\"[^>]*>(.*?)</select>").matcher(page);
    while (select.find()) {
      Matcher chosen =
          Pattern.compile("<option value=\"([^\"]*)\" selected").matcher(select.group(2));
      typed.put(select.group(1), chosen.find() ? chosen.group(1) : "");
    }
    typed.remove("_csrf");
    return typed;
  }

  private static String redirect(ResultActions done) throws Exception {
    return String.valueOf(
        done.andExpect(status().is3xxRedirection()).andReturn().getResponse().getRedirectedUrl());
  }

  private static String text(ResultActions answer) throws Exception {
    return answer.andReturn().getResponse().getContentAsString(StandardCharsets.UTF_8);
  }
}
