package towerledger.ledger;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Arrays;

/**
 * What is taken into a digest, gathered in one array that is used again: texts with their length
 * before them as {@link DataOutputStream#writeUTF} writes them, and numbers. For one thread.
 */
final class DigestText extends ByteArrayOutputStream {

  private final DataOutputStream data = new DataOutputStream(this);

  DigestText() {
    super(1 << 15);
  }

  /** Adds a text of any characters. */
  void text(String text) {
    try {
      data.writeUTF(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Adds a text of plain characters that is put together of pieces, the first so many of these. */
  void text(byte[][] plain, int pieces) {
    int length = 0;
    for (int i = 0; i < pieces; i++) {
      length += plain[i].length;
    }
    room(Short.BYTES + length);
    buf[count++] = (byte) (length >>> 8);
    buf[count++] = (byte) length;
    for (int i = 0; i < pieces; i++) {
      System.arraycopy(plain[i], 0, buf, count, plain[i].length);
      count += plain[i].length;
    }
  }

  /** Room for some numbers, to be filled by the caller. */
  ByteBuffer numbers(int bytes) {
    room(bytes);
    count += bytes;
    return ByteBuffer.wrap(buf, count - bytes, bytes);
  }

  /** Adds all to a digest and begins anew. */
  void moveTo(MessageDigest digest) {
    digest.update(buf, 0, count);
    count = 0;
  }

  private void room(int bytes) {
    if (count + bytes > buf.length) {
      buf = Arrays.copyOf(buf, Math.max(2 * buf.length, count + bytes));
    }
  }

  static byte[] plain(String text) {
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }
}
