package towerledger.intake.csv;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackInputStream;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/** Brings the text of a file to UTF-8 without a byte order mark, whatever mark it carries. */
public final class TextBytes {

  private static final int SNIFFED = 4;

  private TextBytes() {}

  /**
   * The same text as UTF-8.
   *
   * @throws IOException when the stream breaks, or with words for people when its encoding cannot
   *     be told or kept to
   */
  public static InputStream utf8(InputStream in) throws IOException {
    byte[] head = in.readNBytes(SNIFFED);
    var whole = new PushbackInputStream(in, SNIFFED);
    if (starts(head, 0xEF, 0xBB, 0xBF)) {
      whole.unread(head, 3, head.length - 3);
      return whole;
    }
    if (starts(head, 0xFF, 0xFE)) {
      whole.unread(head, 2, head.length - 2);
      return new Transcoded(whole, StandardCharsets.UTF_16LE);
    }
    if (starts(head, 0xFE, 0xFF)) {
      whole.unread(head, 2, head.length - 2);
      return new Transcoded(whole, StandardCharsets.UTF_16BE);
    }
    if (head.length >= 2 && (head[0] == 0 || head[1] == 0)) {
      throw new IOException(
          "the text looks like UTF-16 without a byte order mark; save it as UTF-8 and send it"
              + " again");
    }
    whole.unread(head);
    return whole;
  }

  private static boolean starts(byte[] head, int... mark) {
    for (int i = 0; i < mark.length; i++) {
      if (head.length <= i || (head[i] & 0xFF) != mark[i]) {
        return false;
      }
    }
    return true;
  }

  /** Text in another encoding, read as UTF-8 piece by piece. */
  private static final class Transcoded extends InputStream {

    private final Reader reader;
    private final CharBuffer chars = CharBuffer.allocate(16 * 1024);
    private InputStream piece = new ByteArrayInputStream(new byte[0]);

    Transcoded(InputStream in, Charset charset) {
      reader =
          new InputStreamReader(
              in,
              charset
                  .newDecoder()
                  .onMalformedInput(CodingErrorAction.REPORT)
                  .onUnmappableCharacter(CodingErrorAction.REPORT));
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte @Nullable [] target, int offset, int length) throws IOException {
      int read = piece.read(target, offset, length);
      while (read < 0) {
        if (!nextPiece()) {
          return -1;
        }
        read = piece.read(target, offset, length);
      }
      return read;
    }

    private boolean nextPiece() throws IOException {
      int position = chars.position();
      int count;
      try {
        count = reader.read(chars.array(), position, chars.capacity() - position);
      } catch (java.nio.charset.CharacterCodingException e) {
        throw new IOException(
            "the text carries the mark of UTF-16 but is not; save it as UTF-8 and send it again",
            e);
      }
      if (count < 0 && position == 0) {
        return false;
      }
      int end = position + Math.max(count, 0);
      // a pair of surrogates must not be torn between two pieces
      int whole = count > 0 && Character.isHighSurrogate(chars.array()[end - 1]) ? end - 1 : end;
      ByteBuffer bytes = StandardCharsets.UTF_8.encode(CharBuffer.wrap(chars.array(), 0, whole));
      piece = new ByteArrayInputStream(bytes.array(), 0, bytes.limit());
      chars.clear();
      if (whole < end) {
        chars.put(chars.array()[whole]);
      }
      return true;
    }

    @Override
    public void close() throws IOException {
      reader.close();
    }
  }
}
