package towerledger.intake.file;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import towerledger.account.ChangeHistory;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.tariff.BillOverlaps;
import towerledger.tariff.TariffTables;

/** {@code utility_bills.csv}: what the utility charged a site. */
@Component
class UtilityBillsFile implements FileFormat<UtilityBillsFile.BillRow> {

  private static final Columns COLUMNS = new Columns("utility_bills");
  private static final Column SITE = COLUMNS.required("site");
  private static final Column SERVICE = COLUMNS.required("service");
  private static final Column FROM = COLUMNS.required("from");
  private static final Column TO = COLUMNS.required("to");
  private static final Column UNITS = COLUMNS.number("units", 0, 1e12);
  private static final Column AMOUNT = COLUMNS.number("amount", -1e12, 1e12);
  private static final Column CREDIT = COLUMNS.number("credit_amount", -1e12, 1e12);
  private static final Column ESTIMATED = COLUMNS.optional("estimated");

  /** A bill, ready for its table. */
  record BillRow(String siteCode, String service, LocalDate from, LocalDate to, Fact fact) {}

  private final BillOverlaps overlaps;
  private final ChangeHistory history;
  private final FactStore facts;
  private final ApplicationEventPublisher events;

  UtilityBillsFile(
      BillOverlaps overlaps,
      ChangeHistory history,
      FactStore facts,
      ApplicationEventPublisher events) {
    this.overlaps = overlaps;
    this.history = history;
    this.facts = facts;
    this.events = events;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 80;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public BillRow read(Row row, Taking taking) {
    String siteCode = row.code(SITE);
    var site = taking.directory().site(siteCode);
    String service = row.choice(SERVICE, RateSchedulesFile.SERVICES);
    LocalDate from = row.day(FROM);
    LocalDate to = row.day(TO);
    if (!to.isAfter(from)) {
      throw RowProblem.of(
          "to %s is not after from %s; 'to' is the first day that the bill does not cover",
          to, from);
    }
    @Nullable Object[] cells = {
      site.customerId(),
      site.siteId(),
      service,
      from,
      to,
      row.findDecimal(UNITS, 6),
      row.findDecimal(AMOUNT, 6),
      row.findDecimal(CREDIT, 6),
      row.yesNo(ESTIMATED)
    };
    var begin = from.atStartOfDay(site.zone()).toInstant();
    var end = to.atStartOfDay(site.zone()).toInstant().minusNanos(1000);
    return new BillRow(siteCode, service, from, to, new Fact(cells, null, site, begin, end));
  }

  @Override
  public List<Fate> take(List<BillRow> rows, Taking taking) {
    var table = TariffTables.UTILITY_BILL;
    var result = taking.load(table).apply(rows.stream().map(row -> row.fact.row()).toList());
    var touched = new TouchedMonths();
    for (int i = 0; i < rows.size(); i++) {
      BillRow row = rows.get(i);
      if (FactStore.isNews(result.fates().get(i))) {
        requireNoOverlap(row);
        facts.touch(touched, row.fact);
      }
    }
    for (var change : result.changes()) {
      history.record(
          taking.actor(),
          "changed",
          "utility bill",
          rows.stream()
                  .filter(
                      row ->
                          Objects.equals(
                              row.fact.site().siteId(), change.after()[table.index("site_id")]))
                  .map(BillRow::siteCode)
                  .findFirst()
                  .orElse("")
              + " "
              + change.after()[table.index("service")]
              + " from "
              + change.after()[table.index("from_date")],
          null,
          table.describe(change.before()),
          table.describe(change.after()));
    }
    touched.publish(events, "utility bills came in");
    return result.fates();
  }

  private void requireNoOverlap(BillRow row) {
    overlaps
        .find(row.fact.site().siteId(), row.service, row.from, row.to)
        .ifPresent(
            other -> {
              throw RowProblem.of(
                  "the %s bill from %s to %s overlaps the one from %s to %s; 'to' is the first day"
                      + " that a bill does not cover, so correct one of them",
                  row.service, row.from, row.to, other.from(), other.to());
            });
  }
}
