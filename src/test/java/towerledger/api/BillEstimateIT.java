package towerledger.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.http.MediaType.APPLICATION_JSON;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.content;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.jsonPath;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.hamcrest.Matchers;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.ResultActions;
import tools.jackson.databind.json.JsonMapper;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;
import towerledger.account.Actor;
import towerledger.account.EmptyValues;
import towerledger.account.Viewer;
import towerledger.site.SiteDetails;
import towerledger.site.Sites;
import towerledger.tariff.ScheduleRows;
import towerledger.tariff.ScheduleRows.BlockRow;
import towerledger.tariff.ScheduleRows.ChargeRow;
import towerledger.tariff.ScheduleRows.VersionRow;
import towerledger.tariff.Schedules;

/** Bills asked for over the wire. */
@ApplicationOnH2
class BillEstimateIT {

  private static final Actor TEST = Actor.system("test");

  private static final String DOCUMENT =
      """
      metadata: {effective_date: 10/01/2017, utility_name: Two Mills, bill_frequency: Monthly}
      rate_structure:
        COMMERCIAL:
          service_charge:
            depends_on: [meter_size, city_limits]
            values: {3/4"|inside_city: 12.16}
          commodity_charge: Tiered
          tier_starts_commodity: [0, 3, 5]
          tier_prices_commodity:
            depends_on: city_limits
            values: {inside_city: [3.1, 3.34, 6.54]}
          bill: service_charge+commodity_charge
      """;

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;
  @Autowired Schedules schedules;
  @Autowired Sites sites;

  @Test
  void billsUnderStoredSchedules() throws Exception {
    store("EST-W1");

    // 12.16 + 2 × 3.10 + 2 × 3.34 + 36 × 6.54: reference/tariff_conformance.csv, case C1
    send(signedIn.office(), stored("EST-W1", "40", "ccf"))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.total").value(260.48))
        .andExpect(jsonPath("$.currency").value("USD"))
        .andExpect(jsonPath("$.lines.length()").value(4))
        .andExpect(jsonPath("$.lines[3].working").value("36 ccf × 6.54 (above 4 ccf)"))
        .andExpect(jsonPath("$.lines[3].service").value("water"))
        .andExpect(jsonPath("$.lines[3].amount").value(235.44));
  }

  @Test
  void billsUnderADocumentSentAlong() throws Exception {
    Map<String, Object> request =
        Map.of(
            "owrs",
            DOCUMENT,
            "customer_class",
            "COMMERCIAL",
            "inputs",
            Map.of("meter_size", "3/4\"", "city_limits", "inside_city"),
            "usage",
            40);

    send(signedIn.office(), request)
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.total").value(260.48))
        .andExpect(jsonPath("$.lines[0].name").value("service_charge"))
        .andExpect(jsonPath("$.lines[3].quantity").value(36));
  }

  @Test
  void refusesWhatCannotBeBilledAndSaysHowToMendIt() throws Exception {
    store("EST-W1");
    refused(Map.of(), "give 'schedules' (codes of stored schedules) or 'owrs'");
    refused(stored("EST-W1", "40", "barrel"), "unit 'barrel' is not known; use one of gal");
    refused(stored("EST-W1", "-4", "ccf"), "usage of -4 ccf is below 0");
    refused(Map.of("owrs", DOCUMENT, "usage", 4), "it depends on meter_size, which is not given");
    refused(Map.of("owrs", "a:\n\tb: 1", "usage", 4), "indent with spaces");
    refused(Map.of("owrs", DOCUMENT, "usage", "many"), "'usage' is not a number");
    send(signedIn.office(), stored("EST-NONE", "40", "ccf")).andExpect(status().isNotFound());
  }

  @Test
  void customersBillUnderTheSchedulesOfTheirOwnSitesOnly() throws Exception {
    store("EST-W1");
    store("EST-W2");
    Viewer customer = signedIn.customer("bill@est.example", "EST-C");
    sites.putSite(
        TEST,
        "EST-S",
        signedIn.customerId("EST-C"),
        new SiteDetails("Site", "UTC", null, null, null, null, "EST-W1", null, null),
        EmptyValues.KEEP);

    send(customer, stored("EST-W1", "4", "ccf")).andExpect(status().isOk());
    String others =
        send(customer, stored("EST-W2", "4", "ccf"))
            .andExpect(status().isNotFound())
            .andReturn()
            .getResponse()
            .getContentAsString();
    assertThat(others).contains("There is no schedule 'EST-W2'");
  }

  private void refused(Map<String, Object> request, String reason) throws Exception {
    send(signedIn.office(), request)
        .andExpect(status().isUnprocessableContent())
        .andExpect(content().contentTypeCompatibleWith("application/problem+json"))
        .andExpect(jsonPath("$.detail").value(Matchers.containsString(reason)));
  }

  private ResultActions send(Viewer viewer, Map<String, Object> request) throws Exception {
    return mvc.perform(
        post("/api/v1/estimates/bill")
            .with(signedIn.api(viewer))
            .contentType(APPLICATION_JSON)
            .content(JsonMapper.shared().writeValueAsString(request)));
  }

  private static Map<String, Object> stored(String schedule, String amount, String unit) {
    return Map.of(
        "schedules",
        List.of(schedule),
        "from",
        "2018-03-01",
        "to",
        "2018-04-01",
        "usage",
        Map.of("amount", new BigDecimal(amount), "unit", unit),
        "meter_size_in",
        0.75);
  }

  private void store(String code) {
    LocalDate from = LocalDate.of(2017, 10, 1);
    schedules.take(
        TEST,
        new ScheduleRows(
            List.of(VersionRow.of("v", code, "water", from, "ccf")),
            List.of(
                new ChargeRow("c", code, from, "service charge", 19.05, new BigDecimal("12.16"))),
            List.of(
                block(code, from, "0", "3.10"),
                block(code, from, "2", "3.34"),
                block(code, from, "4", "6.54"))));
  }

  private static BlockRow block(String code, LocalDate from, String units, String rate) {
    return new BlockRow(
        "b" + units, code, from, null, null, null, new BigDecimal(units), new BigDecimal(rate));
  }
}
