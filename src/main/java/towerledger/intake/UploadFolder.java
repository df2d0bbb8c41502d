package towerledger.intake;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A folder in which an upload lies until it is taken; closing it removes all of it. */
public final class UploadFolder implements Closeable {

  private final Path path;

  private UploadFolder(Path path) {
    this.path = path;
  }

  /** A new, empty one. */
  public static UploadFolder open() throws IOException {
    return new UploadFolder(Files.createTempDirectory("tower-upload"));
  }

  public Path path() {
    return path;
  }

  @Override
  public void close() throws IOException {
    try (var left = Files.list(path)) {
      for (Path file : left.toList()) {
        Files.deleteIfExists(file);
      }
    }
    Files.deleteIfExists(path);
  }
}
