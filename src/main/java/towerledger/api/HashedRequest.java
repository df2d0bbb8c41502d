package towerledger.api;

import jakarta.servlet.ReadListener;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import jakarta.servlet.http.Part;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import org.jspecify.annotations.Nullable;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;

/** A request whose body is hashed while the controller reads it, at no cost in memory. */
final class HashedRequest extends HttpServletRequestWrapper {

  private static final int CHUNK = 16 * 1024;
  private static final int DRAIN_LIMIT = 64 * 1024 * 1024;

  private final BodyHash hash;
  private final @Nullable MediaType type;
  private @Nullable HashedStream stream;
  private boolean partsRead;

  HashedRequest(HttpServletRequest request) {
    super(request);
    this.type = mediaType(request);
    this.hash = new BodyHash(type == null ? null : type.getParameter("boundary"));
    String query = request.getQueryString();
    hash.add(
        request.getMethod() + ' ' + request.getRequestURI() + '?' + (query == null ? "" : query));
    hash.add(type == null ? "" : type.getType() + '/' + type.getSubtype());
  }

  private static @Nullable MediaType mediaType(HttpServletRequest request) {
    try {
      return request.getContentType() == null
          ? null
          : MediaType.parseMediaType(request.getContentType());
    } catch (InvalidMediaTypeException e) {
      return null; // answered as 415 further on
    }
  }

  @Override
  public ServletInputStream getInputStream() throws IOException {
    HashedStream present = stream;
    if (present == null) {
      present = new HashedStream(super.getInputStream());
      stream = present;
    }
    return present;
  }

  @Override
  public BufferedReader getReader() throws IOException {
    String encoding = getCharacterEncoding();
    return new BufferedReader(
        new InputStreamReader(
            getInputStream(),
            encoding == null ? StandardCharsets.UTF_8 : Charset.forName(encoding)));
  }

  @Override
  public Collection<Part> getParts() throws IOException, ServletException {
    Collection<Part> parts = super.getParts();
    hashParts(parts);
    return parts;
  }

  @Override
  public @Nullable Part getPart(String name) throws IOException, ServletException {
    hashParts(super.getParts());
    return super.getPart(name);
  }

  /** The container has stored the parts already; they are hashed from there. */
  private void hashParts(Collection<Part> parts) throws IOException {
    if (partsRead) {
      return;
    }
    partsRead = true;
    byte[] chunk = new byte[CHUNK];
    for (Part part : parts) {
      hash.add(part.getName());
      hash.add(String.valueOf(part.getSubmittedFileName()));
      hash.add(Long.toString(part.getSize()));
      try (InputStream content = part.getInputStream()) {
        for (int n = content.read(chunk); n >= 0; n = content.read(chunk)) {
          hash.add(chunk, 0, n);
        }
      }
    }
  }

  /** Reads a body that no controller will read; false where it is broken. */
  boolean readAll() {
    try {
      if (type != null && type.equalsTypeAndSubtype(MediaType.MULTIPART_FORM_DATA)) {
        getParts();
        return true;
      }
      return drain(Long.MAX_VALUE);
    } catch (IOException | ServletException | IllegalStateException broken) {
      return false;
    }
  }

  /**
   * Whether the body was read to its end, or its rest is short enough to be read now. A form that
   * could not be taken apart leaves its stream closed: it was not.
   */
  boolean isRead() {
    try {
      return partsRead || drain(DRAIN_LIMIT);
    } catch (IOException broken) {
      return false;
    }
  }

  private boolean drain(long limit) throws IOException {
    InputStream body = getInputStream();
    byte[] chunk = new byte[CHUNK];
    long total = 0;
    while (total < limit) {
      int n = body.read(chunk);
      if (n < 0) {
        return true;
      }
      total += n;
    }
    return false;
  }

  /** The hash of method, address, type and body; the body must have been read. */
  String hash() {
    return hash.hex();
  }

  private final class HashedStream extends ServletInputStream {

    private final ServletInputStream source;

    HashedStream(ServletInputStream source) {
      this.source = source;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
      int n = source.read(into, from, length);
      if (n > 0) {
        hash.add(into, from, n);
      }
      return n;
    }

    @Override
    public boolean isFinished() {
      return source.isFinished();
    }

    @Override
    public boolean isReady() {
      return source.isReady();
    }

    @Override
    public void setReadListener(ReadListener listener) {
      source.setReadListener(listener);
    }
  }
}
