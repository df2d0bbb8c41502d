package towerledger.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import java.util.List;
import java.util.stream.Stream;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Controller;
import org.springframework.util.AntPathMatcher;
import org.springframework.web.bind.annotation.RequestMethod;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;
import towerledger.ApplicationOnH2;
import towerledger.RatesForPages;
import towerledger.SignedIn;
import towerledger.account.Actor;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedPortfolio;
import towerledger.report.ReportIssue;
import towerledger.report.Reports;

/**
 * Every page on a phone (360 px) and on a desk (1440 px), light and dark: nothing reaches out of
 * the window, and axe-core finds nothing against WCAG 2.2 AA.
 */
@ApplicationOnH2
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class EveryPageIT {

  private static final String CUSTOMER = "customer@browser.test";
  private static final int PHONE = 360;
  private static final int DESK = 1440;
  private static final YearMonth LAST = YearMonth.of(2026, 10);

  /** One address of every page; the test below says when one is missing. */
  static final List<String> PAGES =
      List.of(
          "/?month=2026-10&search=browser",
          "/?month=2026-10&search=nothing-like-it",
          "/systems/BROWSER-T1?month=2026-10",
          "/systems/BROWSER-T1/working/2026-10",
          "/guide",
          "/password",
          "/password/forgotten",
          "/password/reset/used-up",
          "/invitation/used-up",
          "/me",
          "/intake",
          "/intake/foreign",
          "/intake/foreign/browser-table",
          "/intake/imports/browser-import",
          "/intake/imports/browser-import/waiting/register_readings",
          "/intake/quarantine/987001",
          "/intake/quarantine/987002",
          "/findings",
          "/findings?show=settled",
          "/findings/FINDING",
          "/rounds?search=browser",
          "/rounds/BROWSER-T1",
          "/rounds/BROWSER-T1/tower",
          "/credits?year=2026",
          "/credits/BROWSER-S1/2026",
          "/describe/tower",
          "/describe/customer?edit&customer=BROWSER-C0",
          "/describe/rate",
          "/retrofit/BROWSER-T1?measure=cycles&cost=8000&stops=100&cycles=6&escalation=5&discount=6&years=10",
          "/jobs/browser-job",
          "/jobs/browser-job-done",
          "/rates",
          "/reports",
          "/reports?search=nothing-like-it",
          "/reports/of/BROWSER-R",
          "/reports/777000111",
          "/unsubscribe/LEAVE",
          "/rates/BROWSER-W?from=2026-09-01&to=2026-10-01&amount=120&unit=ccf&meter=2",
          "/rates/BROWSER-W?from=&to=2026-10-01&amount=x&unit=ccf&meter=wide",
          "/sites/BROWSER-S1/bills",
          "/calculators",
          "/calculators/evaporation?heat=500&water=1500&dry-bulb=85&wet-bulb=70&set-point=80",
          "/calculators/cycles?evaporation=12&makeup-conductivity=320&basin-conductivity=1100&target-cycles=5",
          "/calculators/valve?valve-coefficient=x&pressure=",
          "/calculators/hole?bore=0.125&pressure=60",
          "/people",
          "/people/1",
          "/people/tokens",
          "/people/history?kind=person",
          "/nothing/here");

  /** The same for pages of a customer's login. */
  static final List<String> PORTAL =
      List.of(
          "/portal?month=2026-10",
          "/portal?month=1999-01",
          "/portal/systems/BROWSER-T1?month=2026-10",
          "/portal/credits?year=2026",
          "/portal/readings",
          "/portal/reports",
          "/me");

  @Autowired ApplicationContext context;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;
  @Autowired RatesForPages rates;
  @LocalServerPort int port;

  private Browser browser;
  private String finding = "";
  private String report = "";
  private String leave = "";
  private boolean customerSignedIn;

  @BeforeAll
  void openTheBook() {
    browser = Browser.start(port);
    new InventedPortfolio(context, "BROWSER-").write(24, LAST.minusMonths(12), LAST);
    finding =
        jdbc.sql(
                """
                SELECT MIN(f.id) FROM finding_finding f JOIN site_system y ON y.id = f.system_id
                WHERE y.code LIKE 'BROWSER-%'\
                """)
            .query(String.class)
            .single();
    rates.keep("BROWSER-W");
    writeAnImport();
    writeReports();
    letACustomerIn();
    browser.signIn(signedIn.adminEmail(), signedIn.adminPassword());
  }

  /** One that was sent, for its link, and a draft. */
  private void writeReports() {
    InventedMonths months =
        new InventedMonths(context, "BROWSER-R", "Hôpital Browser", "Zoë", "zoe@browser.example")
            .history(LAST)
            .write(LAST, InventedMonths.Kind.BAD, InventedMonths.instant(LAST, 28), "first");
    Reports reports = context.getBean(Reports.class);
    Actor office = Actor.system("test");
    ReportIssue sent = reports.prepare(months.customerId(), LAST.minusMonths(1), office);
    reports.approve(sent.id(), sent.digest(), office);
    leave =
        jdbc.sql("SELECT leave_token FROM report_mail WHERE issue_id = ?")
            .param(sent.id())
            .query(String.class)
            .single();
    report = String.valueOf(reports.prepare(months.customerId(), LAST, office).id());
  }

  private void writeAnImport() {
    jdbc.sql(
            """
            INSERT INTO intake_import (id, actor, origin, status, started_at, receipt)
            VALUES ('browser-import', 'office', 'november-readings.zip', 'done', CURRENT_TIMESTAMP, ?)
            """)
        .param(
            """
            {"files": [{"file": "register_readings", "rows": 412, "added": 410, "changed": 0,
              "unchanged": 0, "quarantined": 2, "reasons": ["line 3: meter 'M-9' is not known"]}]}\
            """)
        .update();
    jdbc.sql(
            """
            INSERT INTO intake_table (id, actor, name, file, sender, content, created_at)
            VALUES ('browser-table', 'office', 'lecturas.csv', 'register_readings', 'Mill', ?,
              CURRENT_TIMESTAMP)
            """)
        .param(
            "Readings;;\nMeter No;Date;Reading\nM-1;3.4.2026;1.204,5\nM-9;4.4.2026;14I0\n"
                .getBytes(java.nio.charset.StandardCharsets.UTF_8))
        .update();
    jdbc.sql(
            """
            INSERT INTO job_run (id, kind, status, progress, message, actor, created_at)
            VALUES ('browser-job', 'demo', 'running', 40, 'The months are being reckoned', 'office',
              CURRENT_TIMESTAMP),
              ('browser-job-done', 'demo', 'done', 100, '54,000 rows are taken', 'office',
              CURRENT_TIMESTAMP)\
            """)
        .update();
    for (String row : List.of("987001|M-9,2026-10-31,41877", "987002|M-9;2026-10-31;\"41877")) {
      jdbc.sql(
              """
              INSERT INTO intake_quarantine (id, import_id, file, line, header, raw, raw_hash, reason,
                created_at)
              VALUES (?, 'browser-import', 'register_readings', 3, 'meter,read_at,register', ?, ?,
                'meter ''M-9'' is not known; import it in meters first or correct the code',
                CURRENT_TIMESTAMP)\
              """)
          .params(Long.parseLong(row.substring(0, 6)), row.substring(7), "0".repeat(64))
          .update();
    }
  }

  @AfterAll
  void closeTheBook() {
    if (browser != null) {
      browser.close();
    }
  }

  static Stream<Arguments> pages() {
    return Stream.concat(
        PAGES.stream().map(page -> Arguments.of(false, page)),
        PORTAL.stream().map(page -> Arguments.of(true, page)));
  }

  /** Signs in whoever a page is for, once for all pages of theirs. */
  private void signIn(boolean asCustomer) {
    if (asCustomer != customerSignedIn) {
      browser.signIn(asCustomer ? CUSTOMER : signedIn.adminEmail(), signedIn.adminPassword());
      customerSignedIn = asCustomer;
    }
  }

  private void letACustomerIn() {
    signedIn.customer(CUSTOMER, "BROWSER-C1", true);
    jdbc.sql(
            """
            INSERT INTO site_meter (code, site_id, system_id, role, unit, created_at)
            SELECT CONCAT('M-', code), site_id, id, 'makeup', 'gal', CURRENT_TIMESTAMP
            FROM site_system WHERE code LIKE 'BROWSER-%'\
            """)
        .update();
    jdbc.sql(
            """
            UPDATE account_person SET password_hash =
              (SELECT password_hash FROM account_person WHERE email = ?)
            WHERE email = ?\
            """)
        .params(signedIn.adminEmail(), CUSTOMER)
        .update();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void fitsEveryWindowAndBarsNobody(boolean asCustomer, String page) {
    signIn(asCustomer);
    SoftAssertions found = new SoftAssertions();
    browser.width(PHONE);
    browser.theme("light");
    browser.open(
        page.replace("FINDING", finding).replace("777000111", report).replace("LEAVE", leave));
    assertThat(browser.list("[data-status]")).hasSize(page.equals("/nothing/here") ? 1 : 0);
    found.assertThat(browser.barriers()).as("%s on a phone, light", page).isEmpty();
    for (int width : new int[] {PHONE, DESK}) {
      browser.width(width);
      for (String theme : List.of("light", "dark")) {
        browser.theme(theme);
        found.assertThat(browser.reachingOut()).as("%s, %s, %d px", page, theme, width).isEmpty();
        browser.picture(page.replaceAll("[^a-zA-Z0-9]+", "-") + "-" + width + "-" + theme);
      }
    }
    found.assertThat(browser.barriers()).as("%s on a desk, dark", page).isEmpty();
    found.assertAll();
  }

  /** WCAG 2.2, 2.5.5 (AAA), for whoever stands at a tower in gloves: 44 px each way. */
  @ParameterizedTest
  @ValueSource(
      strings = {"/rounds?search=browser", "/rounds/BROWSER-T1", "/rounds/BROWSER-T1/tower"})
  void givesGlovesRoomAtTheTower(String page) {
    signIn(false);
    browser.width(PHONE);
    browser.open(page);
    browser.run("document.querySelectorAll('main details').forEach(fold => (fold.open = true))");

    assertThat(browser.list("main a, main button")).isNotEmpty();
    assertThat(browser.smallerThan(44)).isEmpty();
  }

  @Test
  void looksAtTheSignInPageToo() {
    try (Browser stranger = Browser.start(port)) {
      for (String theme : List.of("light", "dark")) {
        stranger.width(360);
        stranger.theme(theme);
        stranger.open("/sign-in?wrong");
        assertThat(stranger.reachingOut()).isEmpty();
        assertThat(stranger.barriers()).isEmpty();
        assertThat(stranger.errors()).isEmpty();
      }
    }
  }

  /** A check that cannot fail is none: a picture without words and a wide box are both found. */
  @Test
  void noticesWhatIsWrong() {
    signIn(false);
    browser.width(PHONE);
    browser.open("/guide");
    browser.run(
        """
        const box = document.createElement('div');
        box.style.width = '500px';
        box.append(document.createElement('img'), 'wide');
        document.querySelector('main').append(box);
        """);

    assertThat(browser.barriers()).singleElement().asString().startsWith("image-alt");
    assertThat(browser.reachingOut()).isNotEmpty();
  }

  @Test
  void leavesNoPageOut() {
    AntPathMatcher paths = new AntPathMatcher();
    List<String> forgotten =
        context
            .getBean("requestMappingHandlerMapping", RequestMappingHandlerMapping.class)
            .getHandlerMethods()
            .entrySet()
            .stream()
            .filter(
                entry ->
                    entry.getValue().getBeanType().getName().startsWith("towerledger.")
                        && entry.getValue().getBeanType().isAnnotationPresent(Controller.class)
                        && !entry.getValue().getBeanType().isAnnotationPresent(RestController.class)
                        && entry
                            .getKey()
                            .getMethodsCondition()
                            .getMethods()
                            .contains(RequestMethod.GET))
            .flatMap(entry -> entry.getKey().getPatternValues().stream())
            .filter(
                pattern ->
                    !pattern.endsWith(".css")
                        && !pattern.endsWith(".js")
                        && !pattern.matches(".*\\.(csv|pdf)")
                        && !pattern.endsWith(".jpg")
                        && !pattern.equals("/sign-in"))
            .filter(
                pattern ->
                    Stream.concat(PAGES.stream(), PORTAL.stream())
                        .map(page -> page.replaceFirst("\\?.*", ""))
                        .noneMatch(page -> paths.match(withoutForms(pattern), page)))
            .toList();

    assertThat(forgotten).as("pages nobody looks at").isEmpty();
  }

  /** A pattern whose variables may be anything, so that a page can stand in for an own number. */
  private static String withoutForms(String pattern) {
    return pattern.replaceAll("\\{(\\w+):[^/]*\\}", "{$1}");
  }
}
