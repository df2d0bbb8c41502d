package towerledger.portal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.withinPercentage;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.YearMonth;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.account.Viewer;
import towerledger.ledger.InventedPortfolio;

/** What a customer reads and hands in. */
abstract class PortalCases extends PageCases {

  private static final YearMonth LAST = YearMonth.of(2026, 10);

  @Autowired ApplicationContext context;

  private Viewer reader;
  private Viewer enterer;

  @BeforeEach
  void letTwoCustomersIn() {
    if (count("SELECT COUNT(*) FROM account_customer WHERE code = 'PORTAL-C0'") == 0) {
      new InventedPortfolio(context, "PORTAL-").write(8, LAST.minusMonths(12), LAST);
      jdbc.sql(
              """
              INSERT INTO site_meter (code, site_id, system_id, role, unit, created_at)
              SELECT CONCAT('M-', code), site_id, id, 'makeup', 'gal', CURRENT_TIMESTAMP
              FROM site_system WHERE code LIKE 'PORTAL-%'""")
          .update();
    }
    reader = signedIn.customer("reader@portal.test", "PORTAL-C0");
    enterer = signedIn.customer("enterer@portal.test", "PORTAL-C0", true);
  }

  @Test
  void showsTheMonthOfTheCustomersOwnSitesInASentence() throws Exception {
    String page = open("/portal?month=2026-10", reader);

    assertThat(lead(page)).startsWith("In October 2026 your ").contains("took in");
    assertThat(page).contains("/portal/systems/PORTAL-T0?month=2026-10");
    assertThat(page).doesNotContain("PORTAL-T1").doesNotContain("PORTAL-C1");
    double makeup = figure(group("took in ([0-9,.]+)", lead(page)));
    double gallons =
        jdbc.sql(
                    """
                    SELECT SUM(r.makeup_l) FROM ledger_revision r
                    JOIN ledger_month m ON m.system_id = r.system_id
                      AND m.month_start = r.month_start AND m.revision = r.revision
                    JOIN site_system y ON y.id = r.system_id
                    JOIN account_customer c ON c.id = y.customer_id
                    WHERE c.code = 'PORTAL-C0' AND r.month_start = DATE '2026-10-01'""")
                .query(Double.class)
                .single()
            / 3.785411784;
    // The sentence gives three significant digits.
    assertThat(makeup).isCloseTo(gallons, withinPercentage(0.5));
    assertThat(open("/portal?month=1999-01", reader)).contains("nothing has been reckoned yet");
    assertThat(group("<title>([^<]*)</title>", page))
        .isEqualTo(group("<h1[^>]*>([^<]*)<", page) + " · Tower Water Ledger");
    String system = open("/portal/systems/PORTAL-T0?month=2026-10", reader);
    assertThat(group("<title>([^<]*)</title>", system)).contains(", October 2026 · ");
  }

  @Test
  void offersNoDownloadOfNothing() throws Exception {
    Viewer first = signedIn.customer("first@portal.test", "PORTAL-NEW");

    assertThat(open("/portal", first))
        .contains("nothing has been reckoned yet")
        .doesNotContain("Take the figures along", "ledger.csv");
  }

  @Test
  void showsOneSystemAndTheYearsCredits() throws Exception {
    String page = open("/portal/systems/PORTAL-T0?month=2026-10", reader);
    assertThat(lead(page)).startsWith("In October 2026 this system");
    assertThat(page).contains("<svg").contains("The month is ");

    String credits = open("/portal/credits?year=2026", reader);
    assertThat(credits).contains("Sewer credits, 2026", "Credit deserved");
  }

  @Test
  void answersForAnothersSystemAsForOneThatIsNotThere() throws Exception {
    for (String path : new String[] {"/portal/systems/%s", "/portal/systems/%s?month=2026-10"}) {
      String foreign = notFound(get(path.formatted("PORTAL-T1")));
      assertThat(foreign.replace("PORTAL-T1", "PORTAL-X1"))
          .isEqualTo(notFound(get(path.formatted("PORTAL-X1"))));
    }
  }

  @Test
  void takesReadingsWhereTheOfficeAllowsIt() throws Exception {
    asksFor("/portal/readings", reader, status().isForbidden());
    String page = open("/portal/readings", enterer);
    assertThat(page).contains("M-PORTAL-T0").doesNotContain("M-PORTAL-T1");

    assertThat(reading("M-PORTAL-T0", "120,400", "2026-10-31T17:00"))
        .contains("Taken: meter M-PORTAL-T0 at 120400");
    assertThat(open("/portal/readings", enterer))
        .as("with its unit, grouped as every other figure")
        .containsPattern("120,400\u00a0\\S[^,<]*, Oct 31, 2026");
    assertThat(reading("M-PORTAL-T0", "many", "2026-10-31T17:00")).contains("is no number");
    assertThat(reading("M-PORTAL-T0", "1", "2026-03-08T02:30"))
        .as("an hour the clock skipped")
        .contains("none the clock at the site showed");
    mvc.perform(form("M-PORTAL-T1", "1", "2026-10-31T17:00").with(SignedIn.page(enterer)))
        .andExpect(status().isNotFound());
    mvc.perform(form("M-PORTAL-T0", "1", "2026-10-31T17:00").with(SignedIn.page(reader)))
        .andExpect(status().isForbidden());
    assertThat(
            count(
                """
                SELECT COUNT(*) FROM meter_register_reading r JOIN site_meter m ON m.id = r.meter_id
                WHERE m.code LIKE 'M-PORTAL-%' AND r.recorded_by = 'enterer@portal.test'"""))
        .isEqualTo(1);
  }

  @Test
  void leadsEverybodyToTheirOwnFirstPage() throws Exception {
    asksFor("/", reader, redirectedUrl("/portal"));
    asksFor("/", signedIn.technician("tech@portal.test"), status().is3xxRedirection());
    asksFor("/people", reader, status().isForbidden());
    asksFor("/portal", signedIn.office(), status().isForbidden());
  }

  @Test
  void downloadsByTheLinksOnThePage() throws Exception {
    String page = open("/portal?month=2026-10", reader);
    String path = group("href=\"(/api/v1/ledger.csv[^\"]+)\"", page).replace("&amp;", "&");
    String csv =
        mvc.perform(get(URI.create(path)).with(SignedIn.page(reader)))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertThat(csv).contains("PORTAL-T0").doesNotContain("PORTAL-T1");
  }

  private String reading(String meter, String register, String at) throws Exception {
    return mvc.perform(form(meter, register, at).with(SignedIn.page(enterer)))
        .andExpect(status().isOk())
        .andReturn()
        .getResponse()
        .getContentAsString(StandardCharsets.UTF_8);
  }

  private static MockHttpServletRequestBuilder form(String meter, String register, String at) {
    return post("/portal/readings")
        .param("meter", meter)
        .param("register", register)
        .param("readAt", at);
  }

  private String notFound(MockHttpServletRequestBuilder request) throws Exception {
    return mvc.perform(request.with(SignedIn.page(reader)))
        .andExpect(status().isNotFound())
        .andReturn()
        .getResponse()
        .getContentAsString(StandardCharsets.UTF_8)
        .replaceAll("name=\"_csrf\" value=\"[^\"]*\"", "");
  }
}
