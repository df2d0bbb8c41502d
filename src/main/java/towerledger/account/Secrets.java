package towerledger.account;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;

/** Random secrets and the form in which they are kept. */
final class Secrets {

  private static final SecureRandom RANDOM = new SecureRandom();
  private static final int BYTES = 32;

  private Secrets() {}

  /** A new secret of 256 bits in letters, digits, {@code -} and {@code _}. */
  static String random() {
    return random(BYTES);
  }

  static String random(int bytes) {
    byte[] secret = new byte[bytes];
    RANDOM.nextBytes(secret);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(secret);
  }

  /**
   * SHA-256 in 64 hexadecimal digits (FIPS 180-4). Enough for a random secret of 256 bits, which
   * nobody can guess; a password needs a slow hash.
   */
  static String hash(String secret) {
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(secret.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }
}
