package towerledger.intake.file;

import java.util.Arrays;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.account.CustomerDetails;
import towerledger.account.Customers;
import towerledger.account.EmailAddress;
import towerledger.account.EmptyValues;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;

/** {@code customers.csv}: whom the contractor works for. */
@Component
class CustomersFile implements FileFormat<CustomersFile.CustomerRow> {

  private static final Columns COLUMNS = new Columns("customers");
  private static final Column CUSTOMER = COLUMNS.required("customer");
  private static final Column NAME = COLUMNS.required("name");
  private static final Column CONTACT = COLUMNS.optional("contact_name");
  private static final Column EMAILS = COLUMNS.optional("report_emails");
  private static final Column CURRENCY = COLUMNS.optional("currency");

  /** A customer as told; what is not known stays as it was. */
  record CustomerRow(
      String code,
      String name,
      @Nullable String contact,
      @Nullable List<EmailAddress> emails,
      @Nullable Currency currency) {

    CustomerDetails over(Optional<CustomerDetails> known, EmptyValues empty) {
      CustomerDetails told = told();
      return known.map(before -> empty.over(before, told, (was, now) -> keeping(was))).orElse(told);
    }

    private CustomerDetails told() {
      return new CustomerDetails(
          code,
          name,
          contact,
          emails != null ? emails : List.of(),
          currency != null ? currency : Currency.getInstance("USD"));
    }

    private CustomerDetails keeping(CustomerDetails known) {
      return new CustomerDetails(
          code,
          name,
          contact != null ? contact : known.contactName(),
          emails != null ? emails : known.reportEmails(),
          currency != null ? currency : known.currency());
    }
  }

  private final Customers customers;

  CustomersFile(Customers customers) {
    this.customers = customers;
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
  public CustomerRow read(Row row, Taking taking) {
    return new CustomerRow(
        row.code(CUSTOMER),
        row.text(NAME, 200),
        row.findText(CONTACT, 200),
        emails(row.findText(EMAILS, 2000)),
        currency(row.findText(CURRENCY, 10), taking.empty()));
  }

  private static @Nullable List<EmailAddress> emails(@Nullable String cell) {
    return cell == null
        ? null
        : Arrays.stream(cell.split(";"))
            .map(String::strip)
            .filter(address -> !address.isEmpty())
            .map(EmailAddress::new)
            .toList();
  }

  private static @Nullable Currency currency(@Nullable String cell, EmptyValues empty) {
    if (cell == null && empty == EmptyValues.CLEAR) {
      throw RowProblem.of("%s is empty; each row must give it", CURRENCY.name());
    }
    if (cell == null) {
      return null;
    }
    try {
      return Currency.getInstance(cell.toUpperCase(Locale.ROOT));
    } catch (IllegalArgumentException e) {
      throw RowProblem.of(
          "currency %s is not known; use an ISO 4217 code such as USD", RowProblem.quoted(cell));
    }
  }

  @Override
  public List<RowFate> take(List<CustomerRow> rows, Taking taking) {
    return rows.stream()
        .map(
            row ->
                RowFate.of(
                    customers.put(
                        row.over(
                            customers.find(row.code).map(customer -> customer.details()),
                            taking.empty()),
                        taking.actor())))
        .toList();
  }
}
