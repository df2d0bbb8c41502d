package towerledger.intake;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Tells whether a row came before: a digest of its file, its header and its text. */
final class RowHash {

  private final MessageDigest digest = sha256();
  private final byte[] prefix;

  RowHash(String file, String header) {
    prefix = (file + "\n" + header + "\n").getBytes(StandardCharsets.UTF_8);
  }

  String of(String raw) {
    digest.update(prefix);
    return HexFormat.of().formatHex(digest.digest(raw.getBytes(StandardCharsets.UTF_8)));
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
