package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.test.web.servlet.ResultActions;
import towerledger.ApplicationOnH2;
import towerledger.PageCases;
import towerledger.SignedIn;

/** Describing a tower and a rate from nothing, and two people editing one thing. */
@ApplicationOnH2
class DescribePagesIT extends PageCases {

  private ResultActions send(String sheet, Map<String, String> typed) throws Exception {
    var request = post("/describe/" + sheet).with(SignedIn.page(signedIn.office()));
    typed.forEach(request::param);
    return mvc.perform(request);
  }

  private static String page(ResultActions answer) throws Exception {
    String page = answer.andReturn().getResponse().getContentAsString(StandardCharsets.UTF_8);
    assertWhole(page);
    return page;
  }

  private void addASite() throws Exception {
    if (count("SELECT COUNT(*) FROM site_site WHERE code = 'DESC-S'") == 0) {
      send("customer", Map.of("customer", "DESC-C", "name", "Descending Mills"));
      send(
          "site",
          Map.of(
              "site", "DESC-S",
              "customer", "DESC-C",
              "name", "Mill roof",
              "time_zone", "America/Chicago"));
    }
  }

  @Test
  void leadsFromACustomerToTheFirstReading() throws Exception {
    send("customer", Map.of("customer", "DESC-C2", "name", "Second Mills"))
        .andExpect(redirectedUrl("/describe/site?customer=DESC-C2"));
    send(
            "site",
            Map.of(
                "site", "DESC-S2",
                "customer", "DESC-C2",
                "name", "Roof",
                "time_zone", "America/Chicago"))
        .andExpect(redirectedUrl("/describe/tower?site=DESC-S2"));
    send(
            "tower",
            Map.of(
                "tower", "DESC-T2",
                "site", "DESC-S2",
                "name", "Tower two",
                "nominal_tons", "200"))
        .andExpect(redirectedUrl("/describe/meter?role=makeup&system=DESC-T2"));
    send("meter", Map.of("meter", "DESC-M2", "system", "DESC-T2", "role", "makeup", "unit", "gal"))
        .andExpect(redirectedUrl("/rounds/DESC-T2"));
    assertThat(open("/rounds/DESC-T2")).contains("DESC-M2");
    // A nominal ton of a tower rejects 15,000 Btu/h: 200 tons are 879.2 kW.
    assertThat(
            jdbc.sql("SELECT nominal_kw FROM site_tower WHERE code = 'DESC-T2'")
                .query(Double.class)
                .single())
        .isBetween(879.1, 879.3);
  }

  @Test
  void addsARateThatBills() throws Exception {
    Map<String, String> rate = new LinkedHashMap<>();
    rate.put("schedule", "DESC-W");
    rate.put("service", "water");
    rate.put("effective_from", "2026-01-01");
    rate.put("billing_unit", "ccf");
    rate.put("name", "Water of the mills");
    send("rate", rate).andExpect(status().is3xxRedirection());
    Map<String, String> key = Map.of("schedule", "DESC-W", "effective_from", "2026-01-01");
    Map<String, String> charge = new LinkedHashMap<>(key);
    charge.put("charge", "service");
    charge.put("amount", "12.00");
    send("charge", charge).andExpect(status().is3xxRedirection());
    Map<String, String> block = new LinkedHashMap<>(key);
    block.put("from_units", "0");
    block.put("rate", "3.50");
    send("block", block).andExpect(redirectedUrl("/rates/DESC-W"));

    // By hand: 12.00 + 100 × 3.50
    assertThat(
            open("/rates/DESC-W?from=2026-09-01&to=2026-10-01&amount=100&unit=ccf&meter=2&with="))
        .contains("The bill comes to $362.00.");
  }

  @Test
  void namesTheFieldAndKeepsWhatWasTyped() throws Exception {
    addASite();
    String page =
        page(
            send(
                    "site",
                    Map.of(
                        "site", "DESC-S3",
                        "customer", "DESC-C",
                        "name", "Chimney",
                        "time_zone", "Chicago"))
                .andExpect(status().isUnprocessableContent()));
    assertThat(page)
        .contains("value=\"Chimney\"")
        .contains("id=\"field-time_zone-error\"")
        .doesNotContain("id=\"field-name-error\"")
        .contains("America/Chicago");
    assertThat(count("SELECT COUNT(*) FROM intake_quarantine WHERE raw LIKE '%Chimney%'")).isZero();
  }

  @Test
  void tellsTheSecondOfTwoEditorsAndLetsThemMerge() throws Exception {
    addASite();
    String form = open("/describe/site?edit&site=DESC-S");
    Map<String, String> mine = new LinkedHashMap<>();
    groups("name=\"(was-[a-z_]+)\"", form)
        .forEach(
            name -> mine.put(name, group("name=\"" + name + "\"\\s+value=\"([^\"]*)\"", form)));
    mine.put("edit", "true");
    mine.put("site", "DESC-S");
    mine.put("customer", "DESC-C");
    mine.put("time_zone", "America/Chicago");
    Map<String, String> yours = new LinkedHashMap<>(mine);
    yours.put("name", "North roof");
    mine.put("name", "Roof of the mill");
    mine.put("elevation_ft", "600");
    send("site", yours).andExpect(status().is3xxRedirection());

    String page = page(send("site", mine).andExpect(status().isConflict()));
    assertThat(page)
        .contains("Somebody else changed this meanwhile")
        .contains("Now it says: North roof")
        .contains("value=\"Roof of the mill\"");

    mine.put("was-name", "North roof");
    send("site", mine).andExpect(status().is3xxRedirection());
    assertThat(
            jdbc.sql("SELECT name FROM site_site WHERE code = 'DESC-S'")
                .query(String.class)
                .single())
        .isEqualTo("Roof of the mill");
  }

  @Test
  void showsNoFieldEmptyThatIsToldElsewhere() throws Exception {
    addASite();
    send(
            "tower",
            Map.of(
                "tower", "DESC-T4",
                "site", "DESC-S",
                "name", "Alone",
                "nominal_tons", "200",
                "started_on", "2020-01-01",
                "building_use", "hotel",
                "blowdown_control", "timer",
                "target_cycles", "4"))
        .andExpect(status().is3xxRedirection());
    assertThat(open("/describe/tower?edit&tower=DESC-T4"))
        .contains("<option value=\"hotel\" selected=\"selected\"")
        .contains("href=\"/systems/DESC-T4\"")
        .doesNotContain("name=\"blowdown_control\"", "name=\"target_cycles\"");
    assertThat(open("/systems/DESC-T4")).doesNotContain("Edit system");

    send("system", Map.of("system", "DESC-Y", "site", "DESC-S", "name", "Two", "kind", "open"))
        .andExpect(status().is3xxRedirection());
    send(
            "tower",
            Map.of(
                "tower", "DESC-T5",
                "site", "DESC-S",
                "name", "One of two",
                "system", "DESC-Y",
                "nominal_tons", "200"))
        .andExpect(status().is3xxRedirection());
    assertThat(open("/describe/tower?edit&tower=DESC-T5"))
        .contains("name=\"nominal_tons\"", "value=\"DESC-Y\"", "href=\"/systems/DESC-Y\"")
        .doesNotContain("name=\"kind\"", "name=\"building_use\"");
    assertThat(open("/systems/DESC-Y")).contains("Edit system DESC-Y", "Edit tower DESC-T5");
  }

  @Test
  void addsNothingUnderACodeThatIsTaken() throws Exception {
    addASite();
    assertThat(
            page(
                send("customer", Map.of("customer", "DESC-C", "name", "Others"))
                    .andExpect(status().isConflict())))
        .contains("DESC-C is there already");
    asksFor("/describe/tower?edit&tower=NO-SUCH", signedIn.office(), status().isNotFound());
    asksFor("/describe/planet", signedIn.office(), status().isNotFound());
    asksFor("/describe/tower", signedIn.technician("roof@desc.test"), status().isForbidden());
  }
}
