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
  private int textStart;

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

  /** Begins a text of plain characters that is put together piece by piece. */
  void begin() {
    textStart = count;
    room(Short.BYTES);
    count += Short.BYTES;
  }

  /** Adds a piece of the text that was begun. */
  void piece(byte[] plain) {
    room(plain.length);
    System.arraycopy(plain, 0, buf, count, plain.length);
    count += plain.length;
  }

  /** Adds a number of two digits to the text that was begun, and a character before it. */
  void two(char before, int number) {
    room(3);
    buf[count++] = (byte) before;
    buf[count++] = (byte) ('0' + number / 10);
    buf[count++] = (byte) ('0' + number % 10);
  }

  /** Ends the text that was begun: its length is known now. */
  void end() {
    int length = count - textStart - Short.BYTES;
    buf[textStart] = (byte) (length >>> 8);
    buf[textStart + 1] = (byte) length;
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
