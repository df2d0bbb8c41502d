package towerledger.intake.file;

import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.site.Sites;
import towerledger.tariff.Service;
import towerledger.tariff.UtilityBill;
import towerledger.tariff.UtilityBills;

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
  private static final Column CREDIT = COLUMNS.number("credit_amount", 0, 1e12);
  private static final Column ESTIMATED = COLUMNS.optional("estimated");

  /** A bill, ready to be put. */
  record BillRow(String site, UtilityBill bill) {}

  private final UtilityBills bills;
  private final Sites sites;

  UtilityBillsFile(UtilityBills bills, Sites sites) {
    this.bills = bills;
    this.sites = sites;
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
    String site = row.code(SITE);
    taking.directory().site(site);
    return new BillRow(
        site,
        new UtilityBill(
            Service.ofCode(row.choice(SERVICE, RateSchedulesFile.SERVICES)),
            row.day(FROM),
            row.day(TO),
            row.findDecimal(UNITS, 6),
            row.findDecimal(AMOUNT, 6),
            row.findDecimal(CREDIT, 6),
            row.yesNo(ESTIMATED)));
  }

  @Override
  public List<RowFate> take(List<BillRow> rows, Taking taking) {
    return rows.stream()
        .map(row -> RowFate.of(bills.put(taking.actor(), sites.getSite(row.site), row.bill)))
        .toList();
  }
}
