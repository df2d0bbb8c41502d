package towerledger.account;

import org.springframework.session.SessionIdGenerator;

/**
 * Gives a new session the name it is kept under: the hash of a fresh secret of 256 bits. The secret
 * is taken by the same thread right after, to become the cookie.
 */
final class SessionNames implements SessionIdGenerator {

  private final ThreadLocal<String> fresh = new ThreadLocal<>();

  @Override
  public String generate() {
    String secret = Secrets.random();
    fresh.set(secret);
    return Secrets.hash(secret);
  }

  /** The secret of the name given last in this thread, once. */
  String takeSecret() {
    String secret = fresh.get();
    fresh.remove();
    if (secret == null) {
      throw new IllegalStateException("no session was named in this thread");
    }
    return secret;
  }
}
