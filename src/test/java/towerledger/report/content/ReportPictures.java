package towerledger.report.content;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Currency;
import java.util.List;
import org.springframework.boot.builder.SpringApplicationBuilder;
import towerledger.TowerLedgerApplication;
import towerledger.account.CustomerDetails;
import towerledger.account.UnitPreference;
import towerledger.ledger.InventedMonths;

/**
 * Writes the report of a good month, a bad one, one without evidence and a restated one as files.
 */
public final class ReportPictures {

  private static final YearMonth MONTH = YearMonth.of(2026, 10);

  private ReportPictures() {}

  /** Takes the folder to write into. */
  public static void main(String[] args) throws Exception {
    Path folder = Files.createDirectories(Path.of(args[0]));
    String language = args.length > 1 ? args[1] : "en";
    try (var context =
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .run(
                "--spring.datasource.url=jdbc:h2:mem:pictures;CASE_INSENSITIVE_IDENTIFIERS=TRUE",
                "--TOWERLEDGER_ADMIN_EMAIL=office@example.org",
                "--TOWERLEDGER_ADMIN_PASSWORD=correct-horse-battery",
                "--server.port=0")) {
      ReportWriter writer = context.getBean(ReportWriter.class);
      ReportRenderer renderer = context.getBean(ReportRenderer.class);
      for (String kind : List.of("good", "bad", "no-evidence", "restated")) {
        var months =
            new InventedMonths(
                context, kind, "Hôpital Alder Point", "Zoë Ångström", "zoe@alder.example");
        months.history(MONTH);
        Instant first = InventedMonths.instant(MONTH.plusMonths(1), 11);
        Instant since = InventedMonths.instant(MONTH, 12);
        switch (kind) {
          case "good" -> months.write(MONTH, InventedMonths.Kind.GOOD, first, "first");
          case "bad" -> months.write(MONTH, InventedMonths.Kind.BAD, first, "first");
          case "no-evidence" ->
              months.write(MONTH, InventedMonths.Kind.NO_EVIDENCE, first, "first");
          default -> {
            months.write(MONTH, InventedMonths.Kind.BAD, first, "first");
            months.write(
                MONTH,
                InventedMonths.Kind.GOOD,
                first.plusSeconds(86_400 * 3),
                "register of 31 October corrected");
            since = first.plusSeconds(86_400);
          }
        }
        ReportOrder order =
            new ReportOrder(
                months.customerId(),
                new CustomerDetails(
                    kind,
                    "Hôpital Alder Point",
                    "Zoë Ångström",
                    List.of(),
                    Currency.getInstance("USD")),
                MONTH,
                kind.equals("good") ? UnitPreference.SI : UnitPreference.US,
                language,
                ZoneId.of("America/Chicago"),
                kind.equals("restated") ? 2 : 1,
                since,
                first.plusSeconds(86_400 * 4),
                kind.equals("bad")
                    ? "We have ordered the seat kit for Tower 1.\nTower 5 needs a register reading."
                    : null,
                kind.equals("bad") ? "Ines Falk, account manager" : null);
        Rendered rendered = renderer.render(order, writer.write(order));
        Files.writeString(
            folder.resolve(kind + ".html"),
            rendered
                .html()
                .replace("cid:" + Rendered.PICTURE_ID, kind + ".png")
                .replace(Rendered.RECIPIENT, "zoe@alder.example"));
        Files.writeString(folder.resolve(kind + ".txt"), rendered.plain());
        Files.writeString(folder.resolve(kind + ".csv"), rendered.csv());
        Files.write(folder.resolve(kind + ".pdf"), rendered.pdf());
        Files.write(folder.resolve(kind + ".png"), rendered.picture());
      }
    }
  }
}
