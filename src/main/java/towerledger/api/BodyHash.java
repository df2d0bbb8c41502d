package towerledger.api;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * SHA-256 over a body as it streams by. The boundary lines of multipart/form-data are left out: a
 * client draws a new boundary for every attempt, so the same upload never has the same bytes.
 */
final class BodyHash {

  private final MessageDigest digest;
  private final byte[] boundary;
  private final byte[] lineStart;
  private int held;
  private State state = State.AT_LINE_START;

  private enum State {
    AT_LINE_START,
    IN_LINE,
    IN_BOUNDARY_LINE
  }

  /**
   * A hash of nothing yet.
   *
   * @param boundary the boundary parameter of the content type, or null if it has none
   */
  BodyHash(@Nullable String boundary) {
    this.digest = sha256();
    this.boundary =
        boundary == null ? new byte[0] : ("--" + boundary).getBytes(StandardCharsets.UTF_8);
    this.lineStart = new byte[this.boundary.length];
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }

  void add(String text) {
    digest.update(text.getBytes(StandardCharsets.UTF_8));
    digest.update((byte) 0);
  }

  void add(byte[] bytes, int from, int length) {
    if (boundary.length == 0) {
      digest.update(bytes, from, length);
      return;
    }
    for (int i = from; i < from + length; i++) {
      add(bytes[i]);
    }
  }

  private void add(byte next) {
    switch (state) {
      case AT_LINE_START -> {
        lineStart[held++] = next;
        if (next != boundary[held - 1]) {
          release(next);
        } else if (held == boundary.length) {
          held = 0;
          state = State.IN_BOUNDARY_LINE;
        }
      }
      case IN_LINE -> {
        digest.update(next);
        state = next == '\n' ? State.AT_LINE_START : State.IN_LINE;
      }
      case IN_BOUNDARY_LINE -> state = next == '\n' ? State.AT_LINE_START : state;
    }
  }

  private void release(byte last) {
    digest.update(lineStart, 0, held);
    held = 0;
    state = last == '\n' ? State.AT_LINE_START : State.IN_LINE;
  }

  /** The hash in 64 hexadecimal digits; nothing may be added afterwards. */
  String hex() {
    digest.update(lineStart, 0, held);
    held = 0;
    return HexFormat.of().formatHex(digest.digest());
  }
}
