package towerledger.account;

import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.data.domain.Limit;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** The people who may sign in: invited, changed, removed, let in again. */
@Component
public class People {

  private final PersonRows rows;
  private final TokenRows tokens;
  private final CustomerRows customers;
  private final Links links;
  private final Letters letters;
  private final Devices devices;
  private final ChangeHistory history;
  private final Clock clock;

  People(
      PersonRows rows,
      TokenRows tokens,
      CustomerRows customers,
      Links links,
      Letters letters,
      Devices devices,
      ChangeHistory history,
      Clock clock) {
    this.rows = rows;
    this.tokens = tokens;
    this.customers = customers;
    this.links = links;
    this.letters = letters;
    this.devices = devices;
    this.history = history;
    this.clock = clock;
  }

  /**
   * How many there are.
   *
   * @param canSignIn have a password and were not removed
   * @param invited have not chosen one yet
   */
  public record Count(long canSignIn, long invited) {}

  /**
   * Somebody invited.
   *
   * @param personId key of the person
   * @param link to hand over where there is no mail server to send it; else null
   */
  public record Invited(long personId, @Nullable String link) {}

  /** How many can sign in, and how many were invited and cannot yet. */
  @Transactional(readOnly = true)
  public Count count() {
    return new Count(
        rows.countByEnabledTrueAndPasswordHashNotNull(),
        rows.countByEnabledTrueAndPasswordHashIsNull());
  }

  /**
   * People by name.
   *
   * @param search part of name or e-mail in any case; empty for all
   * @param limit at most so many
   */
  @Transactional(readOnly = true)
  public List<Person> list(String search, int limit) {
    return rows.search("%" + Likeness.escaped(search.strip()) + "%", Limit.of(limit));
  }

  /** The person with a key, if there is one. */
  @Transactional(readOnly = true)
  public Optional<Person> find(long id) {
    return rows.findById(id);
  }

  /**
   * The person with a key.
   *
   * @throws AccountException if there is none
   */
  @Transactional(readOnly = true)
  public Person get(long id) {
    return rows.findById(id)
        .orElseThrow(() -> new AccountException("there is no person with key " + id));
  }

  /**
   * Writes a person a letter in their language, once the surrounding transaction has committed;
   * without a mail server nothing is sent, and the page it leads to is all that tells.
   *
   * @param kind its words are {@code letter.KIND.subject} and {@code letter.KIND.text}
   * @param path the page it leads to, as {@code /findings/3}
   * @param gaps what stands in the words, after the person's name and the page's address
   */
  public void tell(long id, String kind, String path, List<String> gaps) {
    letters.queueWord(id, kind, path, gaps);
  }

  /**
   * Lets somebody in: they get a letter with a link to choose their password.
   *
   * @throws AccountException if there is a person of that e-mail, or no such customer
   */
  @Transactional
  public Invited invite(Invitation invitation, Actor actor) {
    String email = invitation.email().value();
    if (rows.findByEmail(email).isPresent()) {
      throw taken(email);
    }
    Long customerId =
        invitation.customerCode() == null ? null : customer(invitation.customerCode());
    Person person =
        new Person(
            invitation.email(), invitation.name(), invitation.role(), customerId, clock.instant());
    person.change(invitation.name(), invitation.mayEnter());
    try {
      rows.saveAndFlush(person);
    } catch (DataIntegrityViolationException e) {
      // somebody else invited the same address at the same time
      throw taken(email);
    }
    history.record(actor, "invited", "person", email, customerId, null, state(person));
    return letter(person, Link.Purpose.INVITATION);
  }

  private static AccountException taken(String email) {
    return new AccountException("email", "there is a login for %s already".formatted(email));
  }

  /** Sends the invitation of somebody who has no password yet once more. */
  @Transactional
  public Invited inviteAgain(long id, Actor actor) {
    Person person = get(id);
    if (person.hasPassword()) {
      throw new AccountException(
          "%s has a password already and can ask for a new one".formatted(person.email()));
    }
    history.record(
        actor, "invited", "person", person.email(), person.customerId().orElse(null), null, null);
    return letter(person, Link.Purpose.INVITATION);
  }

  private Invited letter(Person person, Link.Purpose purpose) {
    if (letters.canSend()) {
      letters.queue(person.id(), purpose);
      return new Invited(person.id(), null);
    }
    return new Invited(person.id(), letters.address(purpose, links.make(person.id(), purpose)));
  }

  private long customer(String code) {
    return customers
        .findByCode(code)
        .map(Customer::id)
        .orElseThrow(
            () -> new AccountException("customer", "there is no customer '%s'".formatted(code)));
  }

  /**
   * Changes a person's name, role, and what a customer's login may hand in. With another role their
   * sessions end.
   *
   * @throws AccountException if the name is refused, a customer's login would become another's, or
   *     nobody of the office would be left
   */
  @Transactional
  public void change(long id, String name, Role role, boolean mayEnter, Actor actor) {
    Person person = get(id);
    Object before = state(person);
    String stripped = name.strip();
    if (stripped.isEmpty() || stripped.length() > 200) {
      throw new AccountException(
          "name", "the name has %d characters; 1 to 200 are allowed".formatted(stripped.length()));
    }
    if (person.role() != role) {
      if (person.role() == Role.CUSTOMER || role == Role.CUSTOMER) {
        throw new AccountException(
            "a customer's login stays one; remove it and invite the person anew");
      }
      refuseLastOffice(person);
      person.changeRole(role);
    }
    person.change(stripped, mayEnter);
    if (!before.equals(state(person))) {
      record(actor, "changed", person, before);
    }
  }

  /** Removes a person: sessions and tokens end at once; the history keeps their name. */
  @Transactional
  public void remove(long id, Actor actor) {
    Person person = get(id);
    if (!person.enabled()) {
      return;
    }
    refuseLastOffice(person);
    Object before = state(person);
    person.enable(false);
    links.endAll(id);
    devices.forget(id);
    tokens.findByPersonId(id).forEach(token -> token.revoke(clock.instant()));
    record(actor, "removed", person, before);
  }

  /** Lets a removed person in again, with the password they had; tokens stay ended. */
  @Transactional
  public void restore(long id, Actor actor) {
    Person person = get(id);
    if (!person.enabled()) {
      Object before = state(person);
      person.enable(true);
      record(actor, "restored", person, before);
    }
  }

  private void refuseLastOffice(Person person) {
    if (person.role() == Role.OFFICE
        && rows.countByRoleAndEnabledTrueAndPasswordHashNotNull(Role.OFFICE) <= 1
        && person.hasPassword()) {
      throw new AccountException(
          "%s is the last office person who can sign in; invite another first"
              .formatted(person.email()));
    }
  }

  /** Ends every session of a person, on every node, at their next request. */
  @Transactional
  public void endSessions(long id, Actor actor) {
    Person person = get(id);
    person.endSessions();
    record(actor, "signed-out", person, null);
  }

  private void record(Actor actor, String action, Person person, @Nullable Object before) {
    history.record(
        actor,
        action,
        "person",
        person.email(),
        person.customerId().orElse(null),
        before,
        before == null ? null : state(person));
  }

  private static Map<String, Object> state(Person person) {
    return Map.of(
        "name", person.name(),
        "role", person.role(),
        "mayEnter", person.mayEnter(),
        "enabled", person.enabled());
  }
}
