package towerledger.account;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * An e-mail address as a sign-in name: ASCII and lower case, so that neither another case nor a
 * look-alike letter from another alphabet makes a second person of the same-looking name.
 *
 * <p>The form is the dot-atom of RFC 5321 section 4.1.2, at most 254 characters; quoted local parts
 * and non-ASCII mailboxes are refused.
 *
 * @param value the address in lower case
 */
public record EmailAddress(String value) {

  private static final int MAX_LENGTH = 254;
  private static final Pattern FORM =
      Pattern.compile(
          "[a-z0-9!#$%&'*+/=?^_`{|}~-]+(\\.[a-z0-9!#$%&'*+/=?^_`{|}~-]+)*"
              + "@[a-z0-9]([a-z0-9-]*[a-z0-9])?(\\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*");

  public EmailAddress {
    if (value.length() > MAX_LENGTH || !FORM.matcher(value).matches()) {
      throw new AccountException(
          "email",
          "'%s' is no e-mail address this ledger takes: letters a-z, digits and . _ - + before one @, a host name after it, at most %d characters"
              .formatted(shortened(value), MAX_LENGTH));
    }
  }

  /**
   * The address a person typed, without surrounding blanks and in lower case.
   *
   * @throws AccountException if it is none
   */
  public static EmailAddress of(String typed) {
    return find(typed)
        .orElseGet(() -> new EmailAddress(typed.length() > MAX_LENGTH ? "" : typed.strip()));
  }

  /** The same, or empty if it is none. */
  public static Optional<EmailAddress> find(String typed) {
    if (typed.length() > MAX_LENGTH + 10) {
      return Optional.empty();
    }
    String bare = typed.strip();
    // Checked before lower-casing: the Kelvin sign, for one, turns into a plain k.
    if (!bare.chars().allMatch(c -> c > ' ' && c < 0x7f)) {
      return Optional.empty();
    }
    String lower = bare.toLowerCase(Locale.ROOT);
    return lower.length() <= MAX_LENGTH && FORM.matcher(lower).matches()
        ? Optional.of(new EmailAddress(lower))
        : Optional.empty();
  }

  private static String shortened(String value) {
    return value.length() <= 60 ? value : value.substring(0, 60) + "…";
  }

  @Override
  public String toString() {
    return value;
  }
}
