package towerledger.intake;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.account.Viewer;
import towerledger.intake.UploadRefused.Kind;
import towerledger.intake.file.FileFormat;
import towerledger.intake.open.OpenFormat;

/**
 * Which files the ledger takes, by their names, and who may hand them in. An upload is looked
 * through whole before anything of it is taken.
 */
@Component
class KnownFiles {

  private final Map<String, FileFormat<?>> formats;
  private final List<OpenFormat> openFormats;

  KnownFiles(List<FileFormat<?>> formats, List<OpenFormat> openFormats) {
    this.formats =
        formats.stream()
            .collect(Collectors.toMap(format -> format.columns().file(), Function.identity()));
    this.openFormats = List.copyOf(openFormats);
  }

  /** All forms, in the order in which their files depend on each other. */
  List<FileFormat<?>> all() {
    return formats.values().stream()
        .sorted(Comparator.<FileFormat<?>>comparingInt(FileFormat::order))
        .toList();
  }

  /** The form of a file without {@code .csv}; empty where there is none. */
  Optional<FileFormat<?>> find(String file) {
    return Optional.ofNullable(formats.get(file));
  }

  /**
   * The form of a file without {@code .csv}.
   *
   * @throws UploadRefused when there is none
   */
  FileFormat<?> get(String file) {
    FileFormat<?> format = formats.get(file);
    if (format == null) {
      throw new UploadRefused(
          Kind.WRONG_CONTENT,
          "files named '%s' are not known; use one of %s"
              .formatted(Upload.shown(file), formats.keySet().stream().sorted().toList()));
    }
    return format;
  }

  /**
   * Checks that a viewer may hand in such a file.
   *
   * @param viewer null for the program itself, which may
   * @throws UploadRefused when not
   */
  static void requireAllowed(FileFormat<?> format, @Nullable Viewer viewer) {
    if (viewer != null
        && !(format.officeOnly() ? viewer.canAdminister() : viewer.canEnterReadings())) {
      throw new UploadRefused(
          Kind.NOT_ALLOWED,
          "%s.csv is taken from the office only; nothing was taken"
              .formatted(format.columns().file()));
    }
  }

  /**
   * Looks through all of an upload.
   *
   * @param skipped where notes are added on files that are no data
   * @return its files in the order in which they depend on each other
   * @throws UploadRefused when a file or column is wrong, or the sender may not hand it in
   */
  List<CheckedFile> check(Upload upload, @Nullable Viewer viewer, List<FileReceipt> skipped) {
    var recognized = new ArrayList<Recognized>();
    var seen = new HashSet<String>();
    var problems = new ArrayList<String>();
    for (Upload.Entry entry : upload.entries()) {
      String file = fileOf(entry.name());
      FileFormat<?> format = formats.get(file);
      String shown = Upload.shown(entry.name());
      Optional<OpenFormat> open = findOpen(entry.name());
      if (format == null && open.isPresent()) {
        format = formats.get(open.get().file());
        file = shown;
      } else {
        open = Optional.empty();
      }
      if (format == null && isNotData(entry.name())) {
        skipped.add(note(shown, "not read: it is no file of the interchange format"));
      } else if (format == null) {
        problems.add("file '%s' is not known".formatted(shown));
      } else if (!seen.add(file)) {
        problems.add("file '%s' is there twice".formatted(shown));
      } else {
        requireAllowed(format, viewer);
        recognized.add(new Recognized(format, open.orElse(null), entry));
      }
    }
    if (!problems.isEmpty()) {
      throw new UploadRefused(
          Kind.WRONG_CONTENT,
          "%s; nothing was taken. A bundle holds %s, weather (.epw, ISD-Lite) and Green Button (.xml). Send a table with columns of its own alone, by the page /intake/foreign or POST /api/v1/foreign-tables"
              .formatted(
                  String.join("; ", problems.stream().limit(20).toList()),
                  formats.keySet().stream()
                      .sorted()
                      .map(name -> name + ".csv")
                      .collect(Collectors.joining(", "))));
    }
    if (recognized.isEmpty()) {
      throw new UploadRefused(
          Kind.UNREADABLE, "the upload holds no file of the interchange format; nothing was taken");
    }
    recognized.sort(Comparator.comparingInt(file -> file.format().order()));
    return recognized.stream()
        .map(file -> CheckedFile.check(file.format(), file.open(), file.entry()))
        .toList();
  }

  /** A file of an upload whose name says what it is. */
  private record Recognized(FileFormat<?> format, @Nullable OpenFormat open, Upload.Entry entry) {}

  private Optional<OpenFormat> findOpen(String name) {
    String lower = OpenIntake.name(name.strip()).toLowerCase(Locale.ROOT);
    if (lower.startsWith(".")) {
      return Optional.empty();
    }
    return openFormats.stream().filter(open -> open.reads(lower)).findFirst();
  }

  private static FileReceipt note(String file, String reason) {
    return new FileReceipt(file, 0, 0, 0, 0, 0, List.of(reason));
  }

  private static String fileOf(String name) {
    String lower = name.toLowerCase(Locale.ROOT).strip();
    return lower.endsWith(".csv") ? lower.substring(0, lower.length() - 4) : lower;
  }

  /** Notes that people lay beside the data, and what operating systems leave in folders. */
  private static boolean isNotData(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    return lower.startsWith(".") || lower.endsWith(".txt") || lower.endsWith(".md");
  }
}
