package towerledger.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import towerledger.TowerLedgerApplication;

/** Somebody who has never seen the ledger: from an empty one to a month that says whom to call. */
class FirstUseIT {

  private static final String EMAIL = "first@ledger.test";
  private static final String PASSWORD = "a kettle under seven pines";

  @Test
  void fillsAnEmptyLedgerWithTheExampleAtOneClick() {
    try (ConfigurableApplicationContext application =
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .run(
                "--server.port=0",
                "--spring.datasource.url=jdbc:h2:mem:"
                    + UUID.randomUUID()
                    + ";DB_CLOSE_DELAY=-1;CASE_INSENSITIVE_IDENTIFIERS=TRUE",
                "--TOWERLEDGER_ADMIN_EMAIL=" + EMAIL,
                "--TOWERLEDGER_ADMIN_PASSWORD=" + PASSWORD)) {
      int port =
          Integer.parseInt(
              String.valueOf(application.getEnvironment().getProperty("local.server.port")));
      try (Browser browser = Browser.start(port)) {
        browser.width(1440);
        browser.signIn(EMAIL, PASSWORD);
        assertThat(browser.path()).isEqualTo("/guide");
        assertThat(browser.find(".lead").getText()).startsWith("The ledger is empty.");

        browser.find("form[action='/demo'] button").sendKeys(Keys.ENTER);
        browser.waitFor(() -> browser.path().startsWith("/jobs/"), "shows how far the work is");
        assertThat(browser.find("main").getText()).contains("You may leave this page");
        for (int look = 0; look < 12 && browser.list("main a.button.main").isEmpty(); look++) {
          waitAWhile(browser);
        }
        browser.find("main a.button.main").sendKeys(Keys.ENTER);

        browser.waitFor(() -> browser.path().equals("/"), "leads to the month review");
        assertThat(browser.list("main table.review tbody tr")).hasSize(14);
        assertThat(browser.errors()).isEmpty();
      }
    }
  }

  /** At most as long as the browser waits for one thing; the page fetches itself anew meanwhile. */
  private static void waitAWhile(Browser browser) {
    try {
      browser.waitFor(() -> !browser.list("main a.button.main").isEmpty(), "the work is done");
    } catch (org.openqa.selenium.TimeoutException stillAtWork) {
      assertThat(browser.list("progress")).as("the work is still shown as going on").isNotEmpty();
    }
  }
}
