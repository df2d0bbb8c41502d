package towerledger.account;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.Arrays;
import java.util.Currency;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** A company whose cooling water the contractor looks after; owns sites and gets the report. */
@Entity
@Table(name = "account_customer")
public class Customer {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private String code;
  private String name;
  private @Nullable String contactName;
  private @Nullable String reportEmails;

  @Column(length = 3)
  private String currency;

  @Version private long version;
  private Instant createdAt;

  /** For the persistence provider. */
  @SuppressWarnings("NullAway.Init")
  protected Customer() {}

  Customer(CustomerDetails details, Instant createdAt) {
    this.code = details.code();
    this.name = details.name();
    this.currency = details.currency().getCurrencyCode();
    this.createdAt = createdAt;
    change(details);
  }

  final void change(CustomerDetails details) {
    this.name = details.name();
    this.contactName = details.contactName();
    this.reportEmails =
        details.reportEmails().isEmpty()
            ? null
            : details.reportEmails().stream()
                .map(EmailAddress::value)
                .collect(Collectors.joining(";"));
    this.currency = details.currency().getCurrencyCode();
  }

  public long id() {
    return Objects.requireNonNull(id, "customer is not stored yet");
  }

  public String code() {
    return code;
  }

  public String name() {
    return name;
  }

  public Currency currency() {
    return Currency.getInstance(currency);
  }

  public Instant createdAt() {
    return createdAt;
  }

  /** All that {@code customers.csv} says of this customer. */
  public CustomerDetails details() {
    return new CustomerDetails(code, name, contactName, reportEmails(), currency());
  }

  private List<EmailAddress> reportEmails() {
    return reportEmails == null
        ? List.of()
        : Arrays.stream(reportEmails.split(";", -1)).map(EmailAddress::new).toList();
  }
}
