package towerledger.account;

import java.text.Normalizer;
import java.util.Objects;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.springframework.security.crypto.argon2.Argon2PasswordEncoder;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Component;

/**
 * Hashes passwords with Argon2id (RFC 9106), 19 MiB of memory and two passes: the first choice of
 * the OWASP Password Storage Cheat Sheet.
 *
 * <p>Few at a time: a flood of guesses waits here and is turned away instead of taking the memory
 * and the processors from everybody else.
 */
@Component
class Passwords {

  /** Longest password taken, in characters after normalisation; NIST SP 800-63B asks for ≥ 64. */
  static final int MAX_LENGTH = 256;

  private static final int SALT_BYTES = 16;
  private static final int HASH_BYTES = 32;
  private static final int LANES = 1;
  private static final int MEMORY_KIB = 19 * 1024;
  private static final int PASSES = 2;
  private static final int AT_A_TIME = Math.max(1, Runtime.getRuntime().availableProcessors() / 2);
  private static final long PATIENCE_S = 5;

  /** So many may wait; the rest of a flood is turned away at once and holds no thread. */
  private static final int LONGEST_QUEUE = 30;

  private final PasswordEncoder argon2 =
      new Argon2PasswordEncoder(SALT_BYTES, HASH_BYTES, LANES, MEMORY_KIB, PASSES);
  private final Semaphore slots = new Semaphore(AT_A_TIME, true);

  /** Compared against when there is no such person, so that the answer takes as long. */
  private final String nobodysHash = encoded(Secrets.random());

  String hash(String password) {
    return inTurn(() -> encoded(password));
  }

  boolean matches(String password, String hash) {
    return !isTooLong(password) && inTurn(() -> argon2.matches(normal(password), hash));
  }

  /** Takes the time of a comparison; no password is right for nobody. */
  boolean matchesNobody(String password) {
    return matches(password, nobodysHash);
  }

  boolean needsRehash(String hash) {
    return argon2.upgradeEncoding(hash);
  }

  private String encoded(String password) {
    return Objects.requireNonNull(argon2.encode(normal(password)), "a hash of a password");
  }

  /** Whether a password is too long to look at; told without reading it. */
  static boolean isTooLong(String password) {
    return password.length() > 2 * MAX_LENGTH;
  }

  /** The same password typed on another keyboard gives the same characters (Unicode NFC). */
  static String normal(String password) {
    return Normalizer.normalize(password, Normalizer.Form.NFC);
  }

  private <T> T inTurn(Supplier<T> work) {
    if (slots.getQueueLength() >= LONGEST_QUEUE) {
      throw new TooManyAttempts(PATIENCE_S);
    }
    try {
      if (!slots.tryAcquire(PATIENCE_S, TimeUnit.SECONDS)) {
        throw new TooManyAttempts(PATIENCE_S);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new TooManyAttempts(PATIENCE_S);
    }
    try {
      return work.get();
    } finally {
      slots.release();
    }
  }
}
