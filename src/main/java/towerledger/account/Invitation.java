package towerledger.account;

import org.jspecify.annotations.Nullable;

/**
 * Whom to let in.
 *
 * @param email where the invitation goes; becomes the sign-in name
 * @param name as shown on pages, 1 to 200 characters
 * @param role what they are to the contractor
 * @param customerCode whose login it is, for {@link Role#CUSTOMER} and nobody else
 * @param mayEnter whether a customer's login may hand in readings
 */
public record Invitation(
    EmailAddress email, String name, Role role, @Nullable String customerCode, boolean mayEnter) {

  public Invitation {
    name = name.strip();
    if (name.isEmpty() || name.length() > 200) {
      throw new AccountException(
          "name", "the name has %d characters; 1 to 200 are allowed".formatted(name.length()));
    }
    if ((role == Role.CUSTOMER) != (customerCode != null)) {
      throw new AccountException(
          "customer",
          role == Role.CUSTOMER
              ? "a customer's login needs the customer it belongs to"
              : "only a customer's login belongs to a customer");
    }
  }
}
