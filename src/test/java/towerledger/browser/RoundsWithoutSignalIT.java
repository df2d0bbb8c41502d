package towerledger.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;
import towerledger.ledger.InventedPortfolio;

/** A technician's phone on a roof without signal: the pages open, what is entered is kept. */
@ApplicationOnH2
class RoundsWithoutSignalIT {

  private static final String TECHNICIAN = "roof@signal.test";
  private static final YearMonth MONTH = YearMonth.of(2026, 10);

  @Autowired ApplicationContext context;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;
  @LocalServerPort int port;

  private void assignTheRoofs() {
    new InventedPortfolio(context, "SIGNAL-").write(3, MONTH, MONTH);
    jdbc.sql(
            """
            INSERT INTO site_meter (code, site_id, system_id, role, unit, created_at)
            SELECT CONCAT('M-', code), site_id, id, 'makeup', 'gal', CURRENT_TIMESTAMP
            FROM site_system WHERE code LIKE 'SIGNAL-%'""")
        .update();
    long[] sites =
        jdbc
            .sql("SELECT id FROM site_site WHERE code LIKE 'SIGNAL-%'")
            .query(Long.class)
            .list()
            .stream()
            .mapToLong(Long::longValue)
            .toArray();
    signedIn.technician(TECHNICIAN, sites);
    jdbc.sql(
            """
            UPDATE account_person SET password_hash =
              (SELECT password_hash FROM account_person WHERE email = ?)
            WHERE email = ?""")
        .params(signedIn.adminEmail(), TECHNICIAN)
        .update();
  }

  private long readings(String meter) {
    return jdbc.sql(
            """
            SELECT COUNT(*) FROM meter_register_reading r JOIN site_meter m ON m.id = r.meter_id
            WHERE m.code = ?""")
        .param(meter)
        .query(Long.class)
        .single();
  }

  private static String says(Browser phone, String selector) {
    return phone.find(selector).getText();
  }

  @Test
  void opensTheListAndTheSheetsAndSendsWhatWasEnteredOnce() throws Exception {
    assignTheRoofs();
    try (Line line = Line.to(port);
        Browser phone = Browser.start(line.port())) {
      // given a list that was opened once with signal
      phone.width(360);
      phone.signIn(TECHNICIAN, signedIn.adminPassword());
      phone.open("/rounds");
      phone.waitFor(
          () ->
              Boolean.TRUE.equals(
                  phone.run(
                      """
                      return Promise.all(['/rounds', '/rounds/SIGNAL-T0', '/rounds/SIGNAL-T2']
                        .map(path => caches.match(path))).then(found => found.every(Boolean))\
                      """)),
          "the list and its sheets are kept");

      // when there is none
      line.cut();
      phone.open("/rounds");
      phone.find("a[href='/rounds/SIGNAL-T2']").sendKeys(Keys.ENTER);
      phone.waitFor(() -> phone.path().startsWith("/rounds/SIGNAL-T2"), "a sheet opens");
      assertThat(says(phone, "[data-kept-page]")).startsWith("No signal");
      assertThat(phone.reachingOut()).isEmpty();
      phone.picture("round-without-signal-360");
      phone.find("#register-M-SIGNAL-T2").sendKeys("5,120");
      phone.find("main form.form button.main").sendKeys(Keys.ENTER);
      phone.waitFor(
          () -> says(phone, "[data-draft-says]").startsWith("There is no connection"), "kept");
      phone.open("/rounds/SIGNAL-T2");

      // then it waits, over a reload too
      assertThat(says(phone, "[data-draft-list]")).contains("waits to be sent");
      assertThat(readings("M-SIGNAL-T2")).isZero();

      // and when there is signal again it is sent, once
      line.mend();
      phone.open("/rounds");
      phone.waitFor(() -> readings("M-SIGNAL-T2") == 1, "the reading is taken");
      phone.waitFor(() -> says(phone, "[data-draft-says]").startsWith("Taken"), "and says so");
      phone.open("/rounds");
      assertThat(phone.list("[data-draft-list] li")).isEmpty();
      assertThat(phone.find("[data-kept-page]").isDisplayed()).isFalse();
      assertThat(readings("M-SIGNAL-T2")).isEqualTo(1);

      // and whoever signs out leaves no page behind
      phone.run("document.querySelector('form[action=\"/sign-out\"]').submit()");
      phone.waitFor(() -> phone.path().startsWith("/sign-in"), "signed out");
      phone.waitFor(
          () ->
              Boolean.TRUE.equals(
                  phone.run("return caches.match('/rounds/SIGNAL-T2').then(found => !found)")),
          "nothing readable stays on the device");
    }
  }
}
