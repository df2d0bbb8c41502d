package towerledger.office;

import java.time.YearMonth;
import org.springframework.boot.builder.SpringApplicationBuilder;
import towerledger.TowerLedgerApplication;
import towerledger.ledger.InventedPortfolio;

/**
 * Runs the office on an invented portfolio for looking at; the number of systems is the argument.
 */
public final class OfficePreview {

  private OfficePreview() {}

  public static void main(String[] args) {
    var context =
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .run(
                "--spring.datasource.url=jdbc:h2:mem:preview;CASE_INSENSITIVE_IDENTIFIERS=TRUE",
                "--spring.thymeleaf.cache=false",
                "--spring.thymeleaf.prefix=file:src/main/resources/templates/",
                "--spring.web.resources.static-locations=file:src/main/resources/static/",
                "--TOWERLEDGER_ADMIN_EMAIL=office@example.org",
                "--TOWERLEDGER_ADMIN_PASSWORD=correct-horse-battery",
                "--server.port=8095");
    int systems = args.length > 0 ? Integer.parseInt(args[0]) : 40;
    new InventedPortfolio(context, "")
        .write(systems, YearMonth.of(2024, 10), YearMonth.of(2026, 10));
    System.out.println("PREVIEW READY");
  }
}
