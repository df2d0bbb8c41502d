package towerledger.account;

import jakarta.persistence.Entity;
import jakarta.persistence.EnumType;
import jakarta.persistence.Enumerated;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A bearer token for programs, known by the hash of its secret. */
@Entity
@Table(name = "account_token")
public class Token {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private String name;
  private String tokenHash;
  private long personId;
  private @Nullable Long customerId;

  @Enumerated(EnumType.STRING)
  private TokenScope scope;

  private Instant createdAt;
  private @Nullable Instant expiresAt;
  private @Nullable Instant revokedAt;
  private @Nullable Instant lastUsedAt;

  /** For the persistence provider. */
  @SuppressWarnings("NullAway.Init")
  protected Token() {}

  Token(
      String name,
      String tokenHash,
      long personId,
      @Nullable Long customerId,
      TokenScope scope,
      Instant createdAt,
      @Nullable Instant expiresAt) {
    this.name = name;
    this.tokenHash = tokenHash;
    this.personId = personId;
    this.customerId = customerId;
    this.scope = scope;
    this.createdAt = createdAt;
    this.expiresAt = expiresAt;
  }

  public long id() {
    return Objects.requireNonNull(id, "token is not stored yet");
  }

  public String name() {
    return name;
  }

  public long personId() {
    return personId;
  }

  /** The one customer the token is bound to, if it is. */
  public Optional<Long> customerId() {
    return Optional.ofNullable(customerId);
  }

  public TokenScope scope() {
    return scope;
  }

  public Instant createdAt() {
    return createdAt;
  }

  public Optional<Instant> expiresAt() {
    return Optional.ofNullable(expiresAt);
  }

  public Optional<Instant> revokedAt() {
    return Optional.ofNullable(revokedAt);
  }

  public Optional<Instant> lastUsedAt() {
    return Optional.ofNullable(lastUsedAt);
  }

  /** Whether the token opens anything at an instant: neither revoked nor past its end. */
  public boolean isGoodAt(Instant now) {
    return revokedAt == null && (expiresAt == null || now.isBefore(expiresAt));
  }

  void revoke(Instant at) {
    if (revokedAt == null) {
      revokedAt = at;
    }
  }

  void used(Instant at) {
    lastUsedAt = at;
  }
}
