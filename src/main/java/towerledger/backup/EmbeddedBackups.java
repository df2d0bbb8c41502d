package towerledger.backup;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/**
 * Copies the embedded database while it runs. A copy is a ZIP that holds the database file whole as
 * it stood at one moment; it gets its name only when it is complete and on disk.
 */
@Component
class EmbeddedBackups {

  private static final String PREFIX = "towerledger-";
  private static final String SUFFIX = ".zip";
  private static final String PART = ".part";
  private static final DateTimeFormatter NAME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final Logger log = LoggerFactory.getLogger(EmbeddedBackups.class);

  private final DataSource dataSource;
  private final Clock clock;
  private final Path folder;
  private final int keep;

  /**
   * @param folder where copies go
   * @param keep how many stay; at least 1
   */
  EmbeddedBackups(
      DataSource dataSource,
      Clock clock,
      @Value("${towerledger.backup.folder}") Path folder,
      @Value("${towerledger.backup.keep}") int keep) {
    if (keep < 1) {
      throw new IllegalArgumentException(
          "towerledger.backup.keep is " + keep + "; keep at least 1 copy");
    }
    this.dataSource = dataSource;
    this.clock = clock;
    this.folder = folder;
    this.keep = keep;
  }

  /**
   * Makes a copy and throws away the oldest beyond those to keep.
   *
   * @return the copy; empty where the database is no file of ours
   */
  Optional<Path> take() throws SQLException, IOException {
    try (Connection connection = dataSource.getConnection()) {
      if (!connection.getMetaData().getURL().startsWith("jdbc:h2:file:")) {
        return Optional.empty();
      }
      Files.createDirectories(folder);
      removeParts();
      Path copy = folder.resolve(PREFIX + NAME.format(clock.instant()) + SUFFIX);
      Path part = copy.resolveSibling(copy.getFileName() + PART);
      try {
        try (Statement statement = connection.createStatement()) {
          statement.execute("BACKUP TO '" + part.toString().replace("'", "''") + "'");
        }
        try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
          channel.force(true);
        }
        Files.move(part, copy, StandardCopyOption.ATOMIC_MOVE);
      } finally {
        // there only where the copy failed, as on a full disk, which it would keep full
        Files.deleteIfExists(part);
      }
      log.info("copied the database to {} ({} bytes)", copy, Files.size(copy));
      rotate();
      return Optional.of(copy);
    }
  }

  /** Copies there are, newest first. */
  List<Path> list() throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(file -> isCopy(file.getFileName().toString()))
          .sorted(Comparator.reverseOrder())
          .toList();
    }
  }

  /** What a killed process left of copies it did not finish. */
  private void removeParts() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        String name = file.getFileName().toString();
        if (name.endsWith(PART) && isCopy(name.substring(0, name.length() - PART.length()))) {
          Files.delete(file);
        }
      }
    }
  }

  private static boolean isCopy(String name) {
    return name.startsWith(PREFIX) && name.endsWith(SUFFIX);
  }

  private void rotate() throws IOException {
    for (Path old : list().stream().skip(keep).toList()) {
      Files.delete(old);
    }
  }
}
