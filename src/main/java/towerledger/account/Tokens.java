package towerledger.account;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Bearer tokens: made, recognised, revoked. */
@Component
public class Tokens {

  /** Marks a secret of this program wherever it turns up, so that it can be searched for. */
  static final String PREFIX = "twl_";

  private static final Duration LONGEST_LIFE = Duration.ofDays(3650);
  private static final Duration USE_NOTED_EVERY = Duration.ofMinutes(1);

  /**
   * A token just made.
   *
   * @param token the stored token
   * @param secret what the program presents as {@code Authorization: Bearer …}; shown once and
   *     nowhere kept
   */
  public record Issued(Token token, String secret) {}

  private final TokenRows rows;
  private final PersonRows people;
  private final CustomerRows customers;
  private final ChangeHistory history;
  private final Clock clock;

  Tokens(
      TokenRows rows,
      PersonRows people,
      CustomerRows customers,
      ChangeHistory history,
      Clock clock) {
    this.rows = rows;
    this.people = people;
    this.customers = customers;
    this.history = history;
    this.clock = clock;
  }

  /**
   * Makes a token that acts for the viewer.
   *
   * @param owner whose power it carries; a token never carries more than its owner has
   * @param name what it is for, 1 to 100 characters
   * @param scope how much of that power
   * @param customerCode the one customer to bind it to; null for all that the owner may see
   * @param life from now on, at most ten years
   * @throws AccountException if the name, the life or the customer is refused
   */
  @Transactional
  public Issued issue(
      Viewer owner,
      String name,
      TokenScope scope,
      @Nullable String customerCode,
      Duration life,
      Actor actor) {
    String trimmed = name.strip();
    if (trimmed.isEmpty() || trimmed.length() > 100) {
      throw new AccountException(
          "name",
          "the name of a token has %d characters; 1 to 100 are allowed"
              .formatted(trimmed.length()));
    }
    if (life.isNegative() || life.isZero() || life.compareTo(LONGEST_LIFE) > 0) {
      throw new AccountException(
          "days",
          "a token may live from 1 to %d days, not %d"
              .formatted(LONGEST_LIFE.toDays(), life.toDays()));
    }
    if (owner.scope().compareTo(scope) < 0) {
      throw new AccountException(
          "a token of scope %s cannot make one of scope %s".formatted(owner.scope(), scope));
    }
    Long customerId = customerId(owner, customerCode);
    String secret = PREFIX + Secrets.random();
    Instant now = clock.instant();
    Token token =
        rows.save(
            new Token(
                trimmed,
                Secrets.hash(secret),
                owner.personId(),
                customerId,
                scope,
                now,
                now.plus(life)));
    history.record(
        actor, "issued", "token", owner.email() + "/" + trimmed, customerId, null, scope.name());
    return new Issued(token, secret);
  }

  private @Nullable Long customerId(Viewer owner, @Nullable String customerCode) {
    if (owner.customerId() != null) {
      return owner.customerId();
    }
    if (customerCode == null) {
      return null;
    }
    if (!owner.isOffice()) {
      throw new AccountException("only the office can bind a token to a customer");
    }
    return customers
        .findByCode(customerCode)
        .map(Customer::id)
        .orElseThrow(
            () ->
                new AccountException(
                    "customer", "there is no customer '%s'".formatted(customerCode)));
  }

  /**
   * Whoever presents this secret; empty if it is unknown, revoked, past its end, or its owner may
   * no longer sign in.
   */
  @Transactional
  public Optional<Viewer> viewer(String secret) {
    if (secret.length() > 200 || !secret.startsWith(PREFIX)) {
      return Optional.empty();
    }
    Instant now = clock.instant();
    return rows.findByTokenHash(Secrets.hash(secret))
        .filter(token -> token.isGoodAt(now))
        .flatMap(token -> viewer(token, now));
  }

  private Optional<Viewer> viewer(Token token, Instant now) {
    return people
        .findById(token.personId())
        .filter(Person::enabled)
        .map(
            person -> {
              Instant noted = token.lastUsedAt().orElse(Instant.EPOCH);
              if (Duration.between(noted, now).compareTo(USE_NOTED_EVERY) >= 0) {
                token.used(now);
              }
              return viewer(token, person);
            });
  }

  private static Viewer viewer(Token token, Person person) {
    Long customerId = token.customerId().orElse(person.customerId().orElse(null));
    boolean bound = person.role() != Role.CUSTOMER && customerId != null;
    return new Viewer(
        person.id(),
        person.email(),
        person.name(),
        bound ? Role.CUSTOMER : person.role(),
        customerId,
        token.scope(),
        bound || person.mayEnter(),
        person.units(),
        person.language());
  }

  /** The newest tokens, good or not. */
  @Transactional(readOnly = true)
  public List<Token> list(int limit) {
    return rows.findAllByOrderByCreatedAtDescIdDesc(Limit.of(limit));
  }

  /** All tokens of a person. */
  @Transactional(readOnly = true)
  public List<Token> listOf(long personId) {
    return rows.findByPersonId(personId);
  }

  /** How many tokens open anything now. */
  @Transactional(readOnly = true)
  public long countGood() {
    return rows.countGoodAt(clock.instant());
  }

  /** Ends a token at once; ending it again changes nothing. */
  @Transactional
  public void revoke(long id, Actor actor) {
    Token token =
        rows.findById(id)
            .orElseThrow(() -> new AccountException("there is no token with key " + id));
    if (token.revokedAt().isEmpty()) {
      token.revoke(clock.instant());
      history.record(
          actor, "revoked", "token", token.name(), token.customerId().orElse(null), null, null);
    }
  }
}
