package towerledger.account;

import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
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

  /** Everybody, by name. */
  @Transactional(readOnly = true)
  public List<Person> list() {
    return rows.findAllByOrderByNameAscEmailAsc();
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
   * Lets somebody in: they get a letter with a link to choose their password.
   *
   * @return the link to hand over where there is no mail server to send it; else empty
   * @throws AccountException if there is a person of that e-mail, or no such customer
   */
  @Transactional
  public Optional<String> invite(Invitation invitation, Actor actor) {
    String email = invitation.email().value();
    if (rows.findByEmail(email).isPresent()) {
      throw new AccountException("there is a login for %s already".formatted(email));
    }
    Long customerId =
        invitation.customerCode() == null ? null : customer(invitation.customerCode());
    Person person =
        new Person(
            invitation.email(), invitation.name(), invitation.role(), customerId, clock.instant());
    person.change(invitation.name(), invitation.mayEnter());
    rows.saveAndFlush(person);
    history.record(actor, "invited", "person", email, customerId, null, state(person));
    return letter(person, Link.Purpose.INVITATION);
  }

  /** Sends the invitation of somebody who has no password yet once more. */
  @Transactional
  public Optional<String> inviteAgain(long id, Actor actor) {
    Person person = get(id);
    if (person.hasPassword()) {
      throw new AccountException(
          "%s has a password already and can ask for a new one".formatted(person.email()));
    }
    history.record(
        actor, "invited", "person", person.email(), person.customerId().orElse(null), null, null);
    return letter(person, Link.Purpose.INVITATION);
  }

  private Optional<String> letter(Person person, Link.Purpose purpose) {
    if (letters.canSend()) {
      letters.queue(person.id(), purpose);
      return Optional.empty();
    }
    return Optional.of(letters.address(purpose, links.make(person.id(), purpose)));
  }

  private long customer(String code) {
    return customers
        .findByCode(code)
        .map(Customer::id)
        .orElseThrow(() -> new AccountException("there is no customer '%s'".formatted(code)));
  }

  /** Changes the name of a person and what a customer's login may hand in. */
  @Transactional
  public void change(long id, String name, boolean mayEnter, Actor actor) {
    Person person = get(id);
    Object before = state(person);
    String stripped = name.strip();
    if (stripped.isEmpty() || stripped.length() > 200) {
      throw new AccountException(
          "the name has %d characters; 1 to 200 are allowed".formatted(stripped.length()));
    }
    person.change(stripped, mayEnter);
    record(actor, "changed", person, before);
  }

  /** Makes an office person a technician or the other way; their sessions end. */
  @Transactional
  public void changeRole(long id, Role role, Actor actor) {
    Person person = get(id);
    if (person.role() == role) {
      return;
    }
    if (person.role() == Role.CUSTOMER || role == Role.CUSTOMER) {
      throw new AccountException(
          "a customer's login stays one; remove it and invite the person anew");
    }
    if (person.role() == Role.OFFICE) {
      refuseLastOffice(person);
    }
    Object before = state(person);
    person.changeRole(role);
    record(actor, "changed", person, before);
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
