package towerledger.account;

import java.time.Clock;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Makes the first office account in an empty database, from {@code TOWERLEDGER_ADMIN_EMAIL} and
 * {@code TOWERLEDGER_ADMIN_PASSWORD}, or with a random one-time password that is printed once.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class FirstStart implements ApplicationRunner {

  private static final Logger LOG = LoggerFactory.getLogger(FirstStart.class);
  private static final String NAME = "Office";
  private static final String DEFAULT_EMAIL = "office@localhost";
  private static final int ONE_TIME_BYTES = 15;

  private final PersonRows people;
  private final Passwords passwords;
  private final PasswordRules rules;
  private final ChangeHistory history;
  private final TransactionTemplate transaction;
  private final Clock clock;
  private final String email;
  private final String password;

  FirstStart(
      PersonRows people,
      Passwords passwords,
      PasswordRules rules,
      ChangeHistory history,
      TransactionTemplate transaction,
      Clock clock,
      @Value("${TOWERLEDGER_ADMIN_EMAIL:}") String email,
      @Value("${TOWERLEDGER_ADMIN_PASSWORD:}") String password) {
    this.people = people;
    this.passwords = passwords;
    this.rules = rules;
    this.history = history;
    this.transaction = transaction;
    this.clock = clock;
    this.email = email;
    this.password = password;
  }

  @Override
  public void run(ApplicationArguments arguments) {
    if (people.count() > 0) {
      return;
    }
    EmailAddress address =
        EmailAddress.find(email.isBlank() ? DEFAULT_EMAIL : email)
            .orElseThrow(
                () ->
                    new AccountException(
                        "TOWERLEDGER_ADMIN_EMAIL is '%s', which is no e-mail address of the form name@host.domain"
                            .formatted(email)));
    boolean oneTime = password.isEmpty();
    String secret = oneTime ? Secrets.random(ONE_TIME_BYTES) : password;
    if (Passwords.isTooLong(secret)) {
      throw new AccountException(
          "TOWERLEDGER_ADMIN_PASSWORD has %d characters; at most %d are taken"
              .formatted(secret.length(), Passwords.MAX_LENGTH));
    }
    try {
      create(address, secret, oneTime);
    } catch (DataIntegrityViolationException e) {
      LOG.info("another node made the first office account {} just now", address);
      return;
    }
    if (oneTime) {
      LOG.warn(
          "first start: sign in as {} with the one-time password {} and choose your own",
          address,
          secret);
    } else {
      LOG.info("first start: office account {} made", address);
      rules
          .check(password, address.value(), NAME)
          .ifPresent(
              fault ->
                  LOG.warn(
                      "TOWERLEDGER_ADMIN_PASSWORD is one the ledger would take from nobody else ({}):"
                          + " sign in and choose your own",
                      fault));
    }
  }

  private void create(EmailAddress address, String secret, boolean oneTime) {
    transaction.executeWithoutResult(
        status -> {
          Person person = new Person(address, NAME, Role.OFFICE, null, clock.instant());
          person.takePassword(passwords.hash(secret), oneTime);
          people.saveAndFlush(person);
          history.record(
              Actor.system("first start"), "added", "person", address.value(), null, null, null);
        });
  }
}
