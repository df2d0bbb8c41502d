package towerledger.account;

import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Somebody who may sign in. Kept after removal, disabled, so that the history keeps its names. */
@Entity
@Table(name = "account_person")
public class Person {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private String email;
  private String name;
  private @Nullable String passwordHash;

  @Enumerated(EnumType.STRING)
  private Role role;

  private @Nullable Long customerId;
  private boolean mayEnter;

  @Enumerated(EnumType.STRING)
  private UnitPreference units = UnitPreference.US;

  private String language = "en";
  private boolean enabled = true;
  private long sessionRound;
  private boolean mustChangePassword;
  @Version private long version;
  private Instant createdAt;
  private @Nullable Instant lastSignedInAt;

  /** For the persistence provider. */
  @SuppressWarnings("NullAway.Init")
  protected Person() {}

  Person(EmailAddress email, String name, Role role, @Nullable Long customerId, Instant createdAt) {
    if ((role == Role.CUSTOMER) != (customerId != null)) {
      throw new AccountException(
          role == Role.CUSTOMER
              ? "a customer's login needs the customer it belongs to"
              : "only a customer's login belongs to a customer");
    }
    this.email = email.value();
    this.name = name;
    this.role = role;
    this.customerId = customerId;
    this.createdAt = createdAt;
  }

  public long id() {
    return Objects.requireNonNull(id, "person is not stored yet");
  }

  public String email() {
    return email;
  }

  public String name() {
    return name;
  }

  public Role role() {
    return role;
  }

  public Optional<Long> customerId() {
    return Optional.ofNullable(customerId);
  }

  public boolean mayEnter() {
    return mayEnter;
  }

  public UnitPreference units() {
    return units;
  }

  public String language() {
    return language;
  }

  /** Whether the person may sign in at all. */
  public boolean enabled() {
    return enabled;
  }

  /** Whether the person has chosen a password: an invited person has none yet. */
  public boolean hasPassword() {
    return passwordHash != null;
  }

  /**
   * Whether the password was handed out by the program and is good for choosing an own one only.
   */
  public boolean mustChangePassword() {
    return mustChangePassword;
  }

  public Instant createdAt() {
    return createdAt;
  }

  public Optional<Instant> lastSignedInAt() {
    return Optional.ofNullable(lastSignedInAt);
  }

  /** This person as whoever asks, with all of their own power. */
  public Viewer viewer() {
    return new Viewer(
        id(), email, name, role, customerId, TokenScope.ALL, mayEnter, units, language);
  }

  void change(String newName, boolean enters) {
    name = newName;
    mayEnter = enters && role == Role.CUSTOMER;
  }

  void changeRole(Role newRole) {
    role = newRole;
    endSessions();
  }

  /** Lets the person sign in or no longer; their sessions end. */
  void enable(boolean on) {
    enabled = on;
    endSessions();
  }

  long sessionRound() {
    return sessionRound;
  }

  @Nullable String passwordHash() {
    return passwordHash;
  }

  /** Takes a new password; every session begun with the old one ends. */
  void takePassword(String hash, boolean mustChange) {
    passwordHash = hash;
    mustChangePassword = mustChange;
    endSessions();
  }

  /** Stores the same password under today's hashing cost. */
  void rehash(String hash) {
    passwordHash = hash;
  }

  void endSessions() {
    sessionRound++;
  }

  void signedIn(Instant at) {
    lastSignedInAt = at;
  }
}
