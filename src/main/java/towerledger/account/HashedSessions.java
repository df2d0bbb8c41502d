package towerledger.account;

import jakarta.servlet.Filter;
import java.time.Duration;
import java.time.Instant;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.session.Session;
import org.springframework.session.SessionRepository;

/**
 * Keeps sessions under the SHA-256 of their id, so that whoever reads the database cannot take one
 * over. The id itself is in the cookie alone: what is kept answers to it, and does not know it.
 *
 * @param <S> session as it is kept
 */
final class HashedSessions<S extends Session>
    implements SessionRepository<HashedSessions.Known<S>> {

  /** How far behind the kept time of last use may be: a session may end so much too early. */
  static final Duration USED_TO_WITHIN = Duration.ofMinutes(1);

  private final SessionRepository<S> kept;
  private final SessionNames names;
  private final SessionTransactions transactions;

  @SuppressWarnings("ThreadLocalUsage") // one a store, and there is one store
  private final ThreadLocal<Reading<S>> request = new ThreadLocal<>();

  HashedSessions(SessionRepository<S> kept, SessionNames names, SessionTransactions transactions) {
    this.kept = kept;
    this.names = names;
    this.transactions = transactions;
  }

  @Override
  public Known<S> createSession() {
    S session = kept.createSession();
    return new Known<>(session, names.takeSecret(), names);
  }

  @Override
  public void save(Known<S> session) {
    kept.save(session.kept);
  }

  @Override
  public @Nullable Known<S> findById(String id) {
    Reading<S> reading = request.get();
    if (reading != null && reading.read != null && reading.read.getId().equals(id)) {
      return reading.read;
    }
    S session = transactions.readOnly(() -> kept.findById(Secrets.hash(id)));
    Known<S> read = session == null ? null : new Known<>(session, id, names);
    if (reading != null) {
      reading.read = read;
    }
    return read;
  }

  @Override
  public void deleteById(String id) {
    Reading<S> reading = request.get();
    if (reading != null) {
      reading.read = null;
    }
    kept.deleteById(Secrets.hash(id));
  }

  /**
   * Lets the session of a request be read once: the filter that carries it asks for it a second
   * time when the answer has been sent. Goes around that filter.
   */
  Filter readOnce() {
    return (asked, answer, chain) -> {
      if (request.get() != null) {
        chain.doFilter(asked, answer);
        return;
      }
      request.set(new Reading<>());
      try {
        chain.doFilter(asked, answer);
      } finally {
        request.remove();
      }
    };
  }

  /** What was read for one request. */
  private static final class Reading<S extends Session> {
    private @Nullable Known<S> read;
  }

  /**
   * A session whose id is known, since its browser sent it or it was just made.
   *
   * @param <S> session as it is kept
   */
  static final class Known<S extends Session> implements Session {

    private final S kept;
    private final SessionNames names;
    private String id;

    private Known(S kept, String id, SessionNames names) {
      this.kept = kept;
      this.id = id;
      this.names = names;
    }

    @Override
    public String getId() {
      return id;
    }

    @Override
    public String changeSessionId() {
      kept.changeSessionId();
      id = names.takeSecret();
      return id;
    }

    @Override
    @SuppressWarnings("TypeParameterUnusedInFormals") // as the interface has it
    public <T> @Nullable T getAttribute(String name) {
      return kept.getAttribute(name);
    }

    @Override
    public Set<String> getAttributeNames() {
      return kept.getAttributeNames();
    }

    @Override
    public void setAttribute(String name, @Nullable Object value) {
      kept.setAttribute(name, value);
    }

    @Override
    public void removeAttribute(String name) {
      kept.removeAttribute(name);
    }

    @Override
    public Instant getCreationTime() {
      return kept.getCreationTime();
    }

    /**
     * Told at most once a minute: otherwise every page would write to the disk before it is sent.
     */
    @Override
    public void setLastAccessedTime(Instant at) {
      if (!at.isBefore(kept.getLastAccessedTime().plus(USED_TO_WITHIN))) {
        kept.setLastAccessedTime(at);
      }
    }

    @Override
    public Instant getLastAccessedTime() {
      return kept.getLastAccessedTime();
    }

    @Override
    public void setMaxInactiveInterval(Duration interval) {
      kept.setMaxInactiveInterval(interval);
    }

    @Override
    public Duration getMaxInactiveInterval() {
      return kept.getMaxInactiveInterval();
    }

    @Override
    public boolean isExpired() {
      return kept.isExpired();
    }
  }
}
