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
import org.springframework.web.util.HtmlUtils;
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

  /** A form as it was opened, ready to be changed and sent. */
  private Map<String, String> opened(String sheet, String address) throws Exception {
    String form = open("/describe/" + sheet + "?edit&" + address);
    Map<String, String> typed = new LinkedHashMap<>();
    for (String name : groups("name=\"(was-[a-z_]+)\"", form)) {
      String known =
          HtmlUtils.htmlUnescape(group("name=\"" + name + "\"\\s+value=\"([^\"]*)\"", form));
      typed.put(name, known);
      typed.put(name.substring("was-".length()), known);
    }
    typed.put("edit", "true");
    return typed;
  }

  @Test
  void answersThatThereIsNothingToEditWhereThereIsNot() throws Exception {
    addASite();
    for (String sheet : new String[] {"setting", "site", "meter"}) {
      send(sheet, Map.of("edit", "true", sheet, "DESC-NONE", "system", "DESC-NONE"))
          .andExpect(status().isNotFound());
    }
  }

  private String column(String sql) {
    return String.valueOf(jdbc.sql(sql).query().singleRow().values().iterator().next());
  }

  @Test
  void forgetsWhatIsEmptiedAndOnlyThat() throws Exception {
    addASite();
    send("customer", Map.of("customer", "DESC-C6", "name", "Mills", "contact_name", "Lou Harper"));
    Map<String, String> customer = opened("customer", "customer=DESC-C6");
    customer.put("contact_name", "");
    send("customer", customer).andExpect(status().is3xxRedirection());
    assertThat(column("SELECT contact_name FROM account_customer WHERE code = 'DESC-C6'"))
        .isEqualTo("null");

    Map<String, String> site = opened("site", "site=DESC-S");
    site.put("elevation_ft", "611");
    site.put("latitude_deg", "29.7604321");
    send("site", site).andExpect(status().is3xxRedirection());
    site = opened("site", "site=DESC-S");
    site.put("elevation_ft", "");
    send("site", site).andExpect(status().is3xxRedirection());
    // The form shows six digits; what was left alone stays to the last.
    assertThat(column("SELECT latitude_deg FROM site_site WHERE code = 'DESC-S'"))
        .isEqualTo("29.7604321");
    assertThat(column("SELECT elevation_m FROM site_site WHERE code = 'DESC-S'")).isEqualTo("null");
    assertThat(open("/people/history?kind=site&code=DESC-S"))
        .contains("Elevation: 611 ft → nothing");

    send("system", Map.of("system", "DESC-Y6", "site", "DESC-S", "name", "Six", "kind", "open"));
    Map<String, String> system = opened("system", "system=DESC-Y6");
    system.put("kind", "");
    send("system", system).andExpect(status().is3xxRedirection());
    assertThat(column("SELECT kind FROM site_system WHERE code = 'DESC-Y6'")).isEqualTo("null");
  }

  @Test
  void editsATowerOfSeveralAMeterAndASetting() throws Exception {
    addASite();
    send("system", Map.of("system", "DESC-Y7", "site", "DESC-S", "name", "Seven"));
    send(
        "tower",
        Map.of(
            "tower", "DESC-T7",
            "site", "DESC-S",
            "system", "DESC-Y7",
            "name", "One of seven",
            "nominal_tons", "200",
            "cells", "2"));
    Map<String, String> tower = opened("tower", "tower=DESC-T7");
    tower.put("name", "First of seven");
    tower.put("cells", "");
    send("tower", tower).andExpect(status().is3xxRedirection());
    assertThat(column("SELECT name FROM site_tower WHERE code = 'DESC-T7'"))
        .isEqualTo("First of seven");
    assertThat(column("SELECT cells FROM site_tower WHERE code = 'DESC-T7'")).isEqualTo("null");
    tower = opened("tower", "tower=DESC-T7");
    tower.put("nominal_tons", "");
    assertThat(page(send("tower", tower).andExpect(status().isUnprocessableContent())))
        .contains("id=\"field-nominal_tons-error\"");

    send(
        "meter",
        Map.of(
            "meter", "DESC-M7",
            "system", "DESC-Y7",
            "role", "makeup",
            "unit", "gal",
            "multiplier", "100",
            "register_digits", "6"));
    Map<String, String> meter = opened("meter", "meter=DESC-M7");
    meter.put("register_digits", "");
    meter.put("purpose", "makeup of seven");
    send("meter", meter).andExpect(status().is3xxRedirection());
    assertThat(column("SELECT register_digits FROM site_meter WHERE code = 'DESC-M7'"))
        .isEqualTo("null");
    assertThat(column("SELECT multiplier FROM site_meter WHERE code = 'DESC-M7'"))
        .startsWith("100");

    Map<String, String> setting =
        Map.of(
            "system", "DESC-Y7",
            "effective_from", "2026-01-01",
            "setting", "target_cycles",
            "value", "4",
            "reason", "water treater");
    send("setting", setting).andExpect(status().is3xxRedirection());
    String address = "system=DESC-Y7&effective_from=2026-01-01&setting=target_cycles";
    assertThat(open("/systems/DESC-Y7"))
        .as("a way to what was told before")
        .contains("/describe/setting?edit=&amp;" + address.replace("&", "&amp;"));
    Map<String, String> changed = opened("setting", address);
    changed.put("reason", "");
    send("setting", changed).andExpect(status().is3xxRedirection());
    assertThat(column("SELECT COUNT(*) FROM site_setting WHERE reason = 'water treater'"))
        .isEqualTo("0");
    assertThat(open("/people/history?kind=setting&code=DESC-Y7"))
        .contains("water treater → nothing");
  }

  /** The office's account reads US units; the ledger keeps a set-point in °C. */
  @Test
  void editsASettingInTheReadersUnits() throws Exception {
    addASite();
    send(
        "tower",
        Map.of("tower", "DESC-Y8", "site", "DESC-S", "name", "Eight", "nominal_tons", "300"));
    Map<String, String> told =
        Map.of(
            "system", "DESC-Y8",
            "effective_from", "2026-01-01",
            "setting", "cold_water_setpoint_f",
            "value", "74");
    send("setting", told).andExpect(status().is3xxRedirection());
    String address = "system=DESC-Y8&effective_from=2026-01-01&setting=cold_water_setpoint_c";
    assertThat(open("/describe/setting?edit&" + address)).contains("cold-water set-point, °F");
    Map<String, String> warmer = opened("setting", address);
    assertThat(warmer).containsEntry("value", "74");
    warmer.put("value", "77");
    send("setting", warmer).andExpect(status().is3xxRedirection());
    assertThat(
            column(
                """
                SELECT setting_value FROM site_setting
                WHERE setting = 'cold_water_setpoint_c'
                  AND system_id = (SELECT id FROM site_system WHERE code = 'DESC-Y8')"""))
        .isEqualTo("25.0");
    warmer = opened("setting", address);
    warmer.put("value", "900");
    assertThat(page(send("setting", warmer).andExpect(status().isUnprocessableContent())))
        .contains("outside what is possible");
    Map<String, String> small =
        Map.of("tower", "DESC-Y9", "site", "DESC-S", "name", "Nine", "nominal_tons", "-4");
    String refused = page(send("tower", small).andExpect(status().isUnprocessableContent()));
    assertThat(refused)
        .as("the range in the unit that was typed: 1 to 1,000,000 kW at 4.396 kW a ton")
        .containsPattern("field-nominal_tons-error\">[^<]*\\(0\\.2275 to 227400\\)")
        .contains("The field marked below says why.");
    Map<String, String> control =
        Map.of(
            "system", "DESC-Y8",
            "effective_from", "2026-01-01",
            "setting", "blowdown_control",
            "value", "timer");
    send("setting", control).andExpect(status().is3xxRedirection());
    assertThat(
            open(
                "/describe/setting?edit&system=DESC-Y8&effective_from=2026-01-01&setting=blowdown_control"))
        .containsPattern("<option value=\"timer\"[^>]*selected")
        .contains(">by timer<");
  }

  @Test
  void describesAWeatherStationAndOffersItByName() throws Exception {
    addASite();
    send(
            "station",
            Map.of(
                "station", "DESC-W7",
                "name", "Bay airfield",
                "latitude_deg", "29.6",
                "longitude_deg", "-95.3",
                "elevation_ft", "46"))
        .andExpect(redirectedUrl("/describe/station?edit&station=DESC-W7"));
    assertThat(open("/describe/site?edit&site=DESC-S"))
        .contains("<option value=\"DESC-W7\">Bay airfield</option>", "Edit customer DESC-C");
    Map<String, String> station = opened("station", "station=DESC-W7");
    assertThat(station).doesNotContainKey("source");
    station.put("name", "");
    station.put("elevation_ft", "50");
    send("station", station).andExpect(status().is3xxRedirection());
    assertThat(column("SELECT name FROM weather_station WHERE code = 'DESC-W7'")).isEqualTo("null");
    assertThat(open("/people/history?kind=weather%20station&code=DESC-W7"))
        .contains("Name: Bay airfield → nothing")
        .contains("Elevation: 46 ft → 50 ft");
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
