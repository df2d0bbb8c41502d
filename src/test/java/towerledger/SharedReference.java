package towerledger;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Assumptions;

/**
 * Reference data that may be read but not shipped: measured towers, public weather files, sample
 * feeds. It is looked for in the folder that the system property {@code towerledger.reference}
 * names, else in {@code shared/reference} beside the project or above it.
 */
public final class SharedReference {

  private SharedReference() {}

  /**
   * The file, or a skipped test with a plain message.
   *
   * @param relative path within the reference folder, for instance {@code weather/x.epw}
   */
  public static Path fileOrSkip(String relative) {
    Optional<Path> file = find(relative);
    Assumptions.assumeTrue(
        file.isPresent(),
        () ->
            "skipped: reference file "
                + relative
                + " is not here; name its folder with -Dtowerledger.reference=...");
    return file.orElseThrow();
  }

  private static Optional<Path> find(String relative) {
    String named = System.getProperty("towerledger.reference");
    if (named != null && Files.exists(Path.of(named, relative))) {
      return Optional.of(Path.of(named, relative));
    }
    for (Path folder = Path.of("").toAbsolutePath(); folder != null; folder = folder.getParent()) {
      Path file = folder.resolve("shared/reference").resolve(relative);
      if (Files.exists(file)) {
        return Optional.of(file);
      }
    }
    return Optional.empty();
  }
}
