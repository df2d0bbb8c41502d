package towerledger.account;

import java.util.Currency;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What is known of a customer, as one row of {@code customers.csv}.
 *
 * @param code chosen by the user: 1 to 40 letters, digits, {@code - _ .}
 * @param name as printed on reports, 1 to 200 characters
 * @param contactName whom to address, if known
 * @param reportEmails who gets the monthly report; may be empty
 * @param currency ISO 4217 code the customer is billed in
 */
public record CustomerDetails(
    String code,
    String name,
    @Nullable String contactName,
    List<EmailAddress> reportEmails,
    Currency currency) {

  private static final Pattern CODE = Pattern.compile("[A-Za-z0-9._-]{1,40}");

  public CustomerDetails {
    if (!CODE.matcher(code).matches()) {
      throw new AccountException(
          "customer code '%s' is not allowed; use 1 to 40 letters, digits, '-', '_' or '.'"
              .formatted(code));
    }
    if (name.isBlank() || name.length() > 200) {
      throw new AccountException(
          "name of customer %s has %d characters; 1 to 200 are allowed"
              .formatted(code, name.length()));
    }
    if (contactName != null && contactName.length() > 200) {
      throw new AccountException(
          "contact name of customer %s has %d characters; at most 200 are allowed"
              .formatted(code, contactName.length()));
    }
    reportEmails = List.copyOf(reportEmails);
    int length = reportEmails.stream().mapToInt(e -> e.value().length() + 1).sum();
    if (length > 2000) {
      throw new AccountException(
          "the report addresses of customer %s take %d characters; at most 2000 are allowed"
              .formatted(code, length));
    }
  }
}
