package towerledger.intake.file;

import static towerledger.bulk.BulkColumn.birth;
import static towerledger.bulk.BulkColumn.key;
import static towerledger.bulk.BulkColumn.value;

import java.util.Arrays;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.account.ChangeHistory;
import towerledger.bulk.BatchResult.Fate;
import towerledger.bulk.BulkTable;
import towerledger.bulk.BulkType;
import towerledger.bulk.Corrections;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;

/** {@code customers.csv}: whom the contractor works for. */
@Component
class CustomersFile implements FileFormat<@Nullable Object[]> {

  private static final Columns COLUMNS = new Columns("customers");
  private static final Column CUSTOMER = COLUMNS.required("customer");
  private static final Column NAME = COLUMNS.required("name");
  private static final Column CONTACT = COLUMNS.optional("contact_name");
  private static final Column EMAILS = COLUMNS.optional("report_emails");
  private static final Column CURRENCY = COLUMNS.optional("currency");

  private static final BulkTable TABLE =
      BulkTable.of(
          "account_customer",
          Corrections.NOT_KEPT,
          key("code", BulkType.TEXT),
          value("name", BulkType.TEXT),
          value("contact_name", BulkType.TEXT),
          value("report_emails", BulkType.TEXT),
          value("currency", BulkType.TEXT),
          birth("created_at", BulkType.INSTANT));

  private final ChangeHistory history;

  CustomersFile(ChangeHistory history) {
    this.history = history;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 10;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public @Nullable Object[] read(Row row, Taking taking) {
    return new @Nullable Object[] {
      row.code(CUSTOMER),
      row.text(NAME, 200),
      row.findText(CONTACT, 200),
      emails(row.findText(EMAILS, 2000)),
      currency(row.findText(CURRENCY, 10)),
      taking.startedAt()
    };
  }

  private static @Nullable String emails(@Nullable String cell) {
    if (cell == null) {
      return null;
    }
    List<String> addresses =
        Arrays.stream(cell.split(";")).map(String::strip).filter(a -> !a.isEmpty()).toList();
    for (String address : addresses) {
      if (!address.matches("[^@\\s]+@[^@\\s]+")) {
        throw RowProblem.of(
            "report_emails holds %s, which is no address; separate addresses by ';'",
            RowProblem.quoted(address));
      }
    }
    return String.join(";", addresses);
  }

  private static String currency(@Nullable String cell) {
    String code = cell == null ? "USD" : cell.toUpperCase(Locale.ROOT);
    try {
      return Currency.getInstance(code).getCurrencyCode();
    } catch (IllegalArgumentException e) {
      throw RowProblem.of(
          "currency %s is not known; use an ISO 4217 code such as USD", RowProblem.quoted(code));
    }
  }

  @Override
  public List<Fate> take(List<@Nullable Object[]> rows, Taking taking) {
    var result = taking.load(TABLE).apply(rows);
    for (int i = 0; i < rows.size(); i++) {
      if (result.fates().get(i) == Fate.ADDED) {
        record(taking, "added", null, rows.get(i));
      }
    }
    result.changes().forEach(c -> record(taking, "changed", c.before(), c.after()));
    return result.fates();
  }

  private void record(
      Taking taking,
      String action,
      @Nullable Object @Nullable [] before,
      @Nullable Object[] after) {
    history.record(
        taking.actor(),
        action,
        "customer",
        String.valueOf(after[0]),
        null,
        before == null ? null : TABLE.describe(before),
        TABLE.describe(after));
  }
}
