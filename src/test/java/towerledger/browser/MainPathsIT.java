package towerledger.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.YearMonth;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.support.ui.Select;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;
import towerledger.ledger.InventedPortfolio;

/** The paths people walk every month, in a real browser. */
@ApplicationOnH2
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class MainPathsIT {

  private static final YearMonth LAST = YearMonth.of(2026, 10);
  private static final int PHONE = 360;
  private static final int DESK = 1440;

  @Autowired ApplicationContext context;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;
  @LocalServerPort int port;

  private Browser browser;

  @BeforeAll
  void open() {
    browser = Browser.start(port);
    new InventedPortfolio(context, "PATHS-").write(12, LAST.minusMonths(12), LAST);
    browser.width(DESK);
    browser.signIn(signedIn.adminEmail(), signedIn.adminPassword());
  }

  @AfterAll
  void close() {
    if (browser != null) {
      browser.close();
    }
  }

  @AfterEach
  void asBefore() {
    browser.network(true);
    browser.scripts(true);
    browser.width(DESK);
  }

  private void type(String field, String text) {
    WebElement input = browser.find("#" + field);
    input.clear();
    input.sendKeys(text);
  }

  /** A day in a calendar: what its keys mean is the browser's own affair. */
  private void choose(String field, String day) {
    browser.run("document.getElementById('%s').value = '%s'".formatted(field, day));
  }

  /** Presses a link or button; scrolling to it is left to the browser. */
  private void press(String selector) {
    browser.find(selector).sendKeys(Keys.ENTER);
  }

  private void send() {
    press("main form.form button.main");
  }

  private void waitForPath(String beginning) {
    browser.waitFor(() -> browser.path().startsWith(beginning), "leads to " + beginning);
  }

  private String says(String selector) {
    return browser.find(selector).getText();
  }

  /** A system of this test with a finding that waits. */
  private String flaggedSystem() {
    return jdbc.sql(
            """
            SELECT MIN(y.code) FROM finding_finding f JOIN site_system y ON y.id = f.system_id
            WHERE y.code LIKE 'PATHS-%' AND f.status IN ('open', 'assigned')\
            """)
        .query(String.class)
        .single();
  }

  private long readings(String meter) {
    return jdbc.sql(
            """
            SELECT COUNT(*) FROM meter_register_reading r JOIN site_meter m ON m.id = r.meter_id
            WHERE m.code = ?\
            """)
        .param(meter)
        .query(Long.class)
        .single();
  }

  private void addAMeter(String meter) {
    jdbc.sql(
            """
            INSERT INTO site_meter (code, site_id, system_id, role, unit, created_at)
            SELECT CAST(? AS VARCHAR), site_id, id, 'makeup', 'gal', CURRENT_TIMESTAMP
            FROM site_system WHERE code = 'PATHS-T1'\
            """)
        .param(meter)
        .update();
  }

  @Test
  void leadsFromTheMonthReviewToAssigningAFinding() {
    String system = flaggedSystem();
    browser.open("/?month=2026-10&search=" + system);
    press("main table.review tbody th a");
    waitForPath("/systems/" + system);
    press("main a[href*='/findings/']");
    waitForPath("/findings/");
    type("assign-note", "before noon");
    press("form[action$='/assign'] button");
    browser.waitFor(
        () -> browser.find("main").getText().contains("before noon"), "the note is shown");

    assertThat(says("main .notice")).isEqualTo("It is assigned.");
    assertThat(browser.errors()).isEmpty();
  }

  @Test
  void addsATowerAndARateFromNothing() {
    browser.open("/guide");
    press("main a[href='/describe/customer']");
    type("field-customer", "PATHS-NEW");
    type("field-name", "Walked Mills");
    send();
    waitForPath("/describe/site");
    type("field-site", "PATHS-ROOF");
    type("field-name", "Mill roof");
    type("field-time_zone", "Chicago");
    send();
    browser.waitFor(
        () -> !browser.list("#field-time_zone-error").isEmpty(), "the wrong field is named");
    assertThat(browser.focused().getDomAttribute("id"))
        .as("what is to be mended has the focus")
        .isEqualTo("field-time_zone");
    assertThat(browser.find("#field-name").getDomProperty("value")).isEqualTo("Mill roof");
    type("field-time_zone", "America/Chicago");
    send();
    waitForPath("/describe/tower");
    type("field-tower", "PATHS-NEWT");
    type("field-name", "Tower one");
    type("field-nominal_tons", "150");
    send();
    waitForPath("/describe/meter");
    type("field-meter", "PATHS-NEWM");
    new Select(browser.find("#field-unit")).selectByValue("gal");
    send();
    waitForPath("/rounds/PATHS-NEWT");
    type("register-PATHS-NEWM", "1204");
    send();
    browser.waitFor(() -> readings("PATHS-NEWM") == 1, "the reading is taken");

    browser.open("/rates");
    press("main a[href='/describe/rate']");
    type("field-schedule", "PATHS-W");
    new Select(browser.find("#field-service")).selectByValue("water");
    choose("field-effective_from", "2026-01-01");
    new Select(browser.find("#field-billing_unit")).selectByValue("ccf");
    type("field-name", "Water of the mills");
    send();
    waitForPath("/describe/charge");
    type("field-charge", "service");
    type("field-amount", "12.00");
    send();
    waitForPath("/describe/block");
    type("field-rate", "3.50");
    send();
    waitForPath("/rates/PATHS-W");
    assertThat(says("main")).contains("3.50").contains("12.00");
    assertThat(browser.errors().stream().filter(e -> !e.contains("422"))).isEmpty();
  }

  @Test
  void keepsAReadingWithoutConnectionAndSendsItOnce() {
    addAMeter("PATHS-OFF");
    browser.width(PHONE);
    browser.open("/rounds/PATHS-T1");
    send();
    browser.waitFor(
        () -> says("[data-draft-says]").startsWith("Nothing was entered"),
        "an empty sheet is told");
    assertThat(browser.list("[data-draft-list] li")).isEmpty();
    browser.network(false);
    type("register-PATHS-OFF", "5,120");
    send();
    browser.waitFor(
        () -> says("[data-draft-says]").startsWith("There is no connection"), "it is kept");
    assertThat(says("[data-draft-list]")).contains("waits to be sent");
    assertThat(browser.reachingOut()).isEmpty();
    assertThat(readings("PATHS-OFF")).isZero();

    browser.network(true);
    browser.waitFor(() -> readings("PATHS-OFF") == 1, "it is sent when the connection is back");
    browser.waitFor(() -> says("[data-draft-says]").startsWith("Taken"), "and says so");
    browser.open("/rounds");
    assertThat(browser.list("[data-draft-list] li")).isEmpty();
    assertThat(readings("PATHS-OFF")).isEqualTo(1);
  }

  @Test
  void mendsARowThatAnImportCouldNotTake(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("customers.csv");
    Files.writeString(
        file, "customer,name,currency\nPATHS-I1,First,USD\nPATHS-I2,Second,dollars\n");
    browser.open("/intake");
    browser.find("#file").sendKeys(file.toString());
    send();
    waitForPath("/intake/imports/");
    assertThat(says(".lead")).startsWith("2 rows came in");
    browser.open("/intake");
    press("main a[href*='/intake/quarantine/']");
    waitForPath("/intake/quarantine/");
    assertThat(says(".lead")).contains("dollars");
    WebElement wrong =
        browser.list("main input[type=text]").stream()
            .filter(input -> "dollars".equals(input.getDomProperty("value")))
            .findFirst()
            .orElseThrow();
    wrong.clear();
    wrong.sendKeys("USD");
    send();
    browser.waitFor(() -> browser.path().equals("/intake"), "back to the intake");
    assertThat(says("main .notice")).startsWith("The row was taken");
    assertThat(
            jdbc.sql("SELECT COUNT(*) FROM account_customer WHERE code = 'PATHS-I2'")
                .query(Long.class)
                .single())
        .isEqualTo(1);
  }

  @Test
  void sendsAFormOnceWhenItsButtonIsPressedTwice() {
    browser.open("/people/tokens");
    type("name", "paths pressed twice");
    browser.run(
        """
        const button = document.querySelector("form[action='/people/tokens'] button.main");
        button.click();
        button.click();\
        """);
    browser.waitFor(() -> !browser.list("main .secret").isEmpty(), "the secret is shown");

    assertThat(
            jdbc.sql("SELECT COUNT(*) FROM account_token WHERE name = 'paths pressed twice'")
                .query(Long.class)
                .single())
        .isEqualTo(1);
  }

  /** WCAG 2.2, 4.1.3: what changed is told without moving the focus. */
  @Test
  void tellsWhatASearchFoundAndGoesBackToWholePages() {
    browser.open("/findings");
    browser.open("/?month=2026-10");
    browser.find("#search").sendKeys("PATHS-T");
    browser.waitFor(() -> browser.path().contains("search=PATHS-T"), "the list is sought");
    browser.find("#search").sendKeys("1");
    browser.waitFor(() -> browser.path().endsWith("search=PATHS-T1"), "and again");
    browser.waitFor(
        () -> says("[data-heard]").equals(says("main nav [data-said]")), "what was found is told");
    assertThat(browser.focused().getDomAttribute("id")).isEqualTo("search");

    press("main table.review tbody th a");
    waitForPath("/systems/PATHS-T1");
    browser.run("history.back()");
    browser.waitFor(
        () -> browser.path().endsWith("search=PATHS-T1") && !browser.list("#search").isEmpty(),
        "back to the whole page");
    browser.run("history.back()");
    browser.waitFor(() -> browser.path().equals("/findings"), "and not through half a word");
  }

  @Test
  void needsNoMouse() {
    browser.open("/?month=2026-10&search=" + flaggedSystem());
    browser.find("body").sendKeys(Keys.TAB);
    assertThat(browser.focused().getText()).isEqualTo("To the text");
    browser.focused().sendKeys(Keys.ENTER);
    tabTo("main table.review tbody th a");
    browser.focused().sendKeys(Keys.ENTER);
    waitForPath("/systems/PATHS-");
    tabTo("main a[href*='/findings/']");
    browser.focused().sendKeys(Keys.ENTER);
    waitForPath("/findings/");
    tabTo("#note");
    browser.focused().sendKeys("by keys alone");
    tabTo("form[action$='/note'] button");
    browser.focused().sendKeys(Keys.ENTER);
    browser.waitFor(
        () -> browser.find("main").getText().contains("by keys alone"), "the note is kept");
  }

  private void tabTo(String selector) {
    for (int press = 0; press < 200; press++) {
      if (browser.list(selector).contains(browser.focused())) {
        return;
      }
      browser.focused().sendKeys(Keys.TAB);
    }
    throw new AssertionError("no way by TAB to " + selector + " on " + browser.path());
  }

  @Test
  void readsAndTakesFormsWithoutScripts() {
    addAMeter("PATHS-NOJS");
    browser.scripts(false);
    browser.open("/?month=2026-10&search=paths");
    assertThat(browser.list("main table.review tbody tr")).isNotEmpty();
    assertThat(browser.list("main figure table")).isNotEmpty();
    browser.open("/rounds/PATHS-T1");
    type("register-PATHS-NOJS", "77");
    send();
    browser.waitFor(() -> !browser.list("main .notice").isEmpty(), "it is answered");
    assertThat(readings("PATHS-NOJS")).isEqualTo(1);
  }
}
