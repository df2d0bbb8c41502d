package towerledger.account;

import org.jspecify.annotations.Nullable;

/**
 * Whoever asks, as known at this request: a signed-in person or the bearer of a token.
 *
 * <p>Read afresh from the database for every request, so a changed role or a removed person counts
 * at once. A controller takes it as a method parameter; anything else asks {@link CurrentViewer}.
 * Which sites a viewer may see is answered by {@code site.SiteAccess} alone.
 *
 * @param personId key of the person; a token's owner
 * @param email sign-in name, lower case
 * @param name as shown on pages
 * @param role what the viewer counts as; an office member's token that is bound to one customer
 *     counts as {@link Role#CUSTOMER}
 * @param customerId the one customer whose things the viewer may see; present for {@link
 *     Role#CUSTOMER} and for nobody else
 * @param scope how much the token allows; {@link TokenScope#ALL} for a person signed in by form
 * @param mayEnter whether a customer's login may hand in readings; no meaning for other roles
 * @param units units to show figures in
 * @param language language tag of pages and mails, such as {@code en}
 */
public record Viewer(
    long personId,
    String email,
    String name,
    Role role,
    @Nullable Long customerId,
    TokenScope scope,
    boolean mayEnter,
    UnitPreference units,
    String language) {

  public Viewer {
    if ((role == Role.CUSTOMER) != (customerId != null)) {
      throw new IllegalArgumentException(
          "viewer %s: role %s and customer %s do not go together; exactly a customer's login names a customer"
              .formatted(email, role, customerId));
    }
  }

  public boolean isOffice() {
    return role == Role.OFFICE;
  }

  /** Whether readings, samples, heat loads and visits of visible systems are taken from here. */
  public boolean canEnterReadings() {
    return scope != TokenScope.READ && (role != Role.CUSTOMER || mayEnter);
  }

  /** Whether customers, sites, rates, people and findings may be changed. */
  public boolean canAdminister() {
    return role == Role.OFFICE && scope == TokenScope.ALL;
  }

  /** Whether money may be shown: a technician enters readings and never sees a price. */
  public boolean canSeePrices() {
    return role != Role.TECHNICIAN;
  }
}
