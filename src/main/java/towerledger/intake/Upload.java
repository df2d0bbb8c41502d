package towerledger.intake;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Enumeration;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import towerledger.intake.UploadRefused.Kind;

/**
 * What was handed in: the files of a folder, of a ZIP, or single ones. Each can be opened more than
 * once; nothing is unpacked to disk.
 */
public final class Upload implements Closeable {

  private static final int MOST_FILES = 1_000;

  private final List<Entry> entries = new ArrayList<>();
  private final List<Closeable> open = new ArrayList<>();

  /**
   * One file of an upload.
   *
   * @param name its name without folders
   * @param packedBytes its size as packed in a ZIP; -1 if it did not come in one
   * @param checksum the CRC-32 that the ZIP states; -1 if none
   * @param content opens it from its beginning
   */
  record Entry(String name, long packedBytes, long checksum, Content content) {}

  /** Opens a file from its beginning, as often as asked. */
  @FunctionalInterface
  public interface Content {
    InputStream open() throws IOException;
  }

  private Upload() {}

  /** A folder or a ZIP on this machine, as named at start-up. */
  public static Upload of(Path folderOrZip) {
    var upload = new Upload();
    if (Files.isDirectory(folderOrZip)) {
      upload.addFolder(folderOrZip);
    } else if (Files.isRegularFile(folderOrZip)) {
      upload.add(String.valueOf(folderOrZip.getFileName()), folderOrZip);
    } else {
      throw new UploadRefused(
          Kind.UNREADABLE, "there is no folder or file %s to import".formatted(folderOrZip));
    }
    return upload;
  }

  /** An upload without files yet. */
  public static Upload empty() {
    return new Upload();
  }

  private void addFolder(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      files
          .filter(Files::isRegularFile)
          .sorted(Comparator.comparing(Path::toString))
          .forEach(file -> add(String.valueOf(file.getFileName()), file));
    } catch (IOException e) {
      throw new UploadRefused(
          Kind.UNREADABLE, "folder %s cannot be read: %s".formatted(folder, e.getMessage()));
    }
  }

  /**
   * Adds a file that was handed in; a ZIP is looked into.
   *
   * @param name the name it was handed in under
   * @param file where it lies; must stay there until the upload is closed
   * @throws UploadRefused when it is empty, or a ZIP that is broken or reaches outside itself
   */
  public void add(String name, Path file) {
    try {
      if (Files.size(file) == 0) {
        throw new UploadRefused(
            Kind.UNREADABLE, "file '%s' is empty; nothing was taken".formatted(shown(name)));
      }
      if (isZip(file)) {
        addZip(name, file);
      } else {
        addEntry(new Entry(withoutFolders(name), -1, -1, () -> Files.newInputStream(file)));
      }
    } catch (IOException e) {
      throw new UploadRefused(
          Kind.UNREADABLE, "file '%s' cannot be read: %s".formatted(shown(name), e.getMessage()));
    }
  }

  /** Adds a file that lies elsewhere, for instance among the program's own resources. */
  public void add(String name, Content content) {
    addEntry(new Entry(withoutFolders(name), -1, -1, content));
  }

  private static boolean isZip(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] head = in.readNBytes(4);
      return head.length == 4
          && head[0] == 'P'
          && head[1] == 'K'
          && (head[2] == 3 || head[2] == 5)
          && (head[3] == 4 || head[3] == 6);
    }
  }

  private void addZip(String name, Path file) {
    ZipFile zip;
    try {
      zip = new ZipFile(file.toFile());
    } catch (IOException e) {
      throw new UploadRefused(
          Kind.UNREADABLE,
          "'%s' is no whole ZIP file (%s); it may have been cut short on its way, so send it again"
              .formatted(shown(name), e.getMessage()));
    }
    open.add(zip);
    Enumeration<? extends ZipEntry> all = zip.entries();
    while (all.hasMoreElements()) {
      ZipEntry entry = all.nextElement();
      requireInside(entry.getName());
      if (!entry.isDirectory()) {
        addEntry(
            new Entry(
                withoutFolders(entry.getName()),
                entry.getCompressedSize(),
                entry.getCrc(),
                () -> contentOf(zip, entry)));
      }
    }
    if (entries.isEmpty()) {
      throw new UploadRefused(
          Kind.UNREADABLE, "the ZIP '%s' holds no file; nothing was taken".formatted(shown(name)));
    }
  }

  private static InputStream contentOf(ZipFile zip, ZipEntry entry) throws IOException {
    InputStream content = zip.getInputStream(entry);
    if (content == null) {
      throw new IOException("the ZIP no longer holds " + entry.getName());
    }
    return content;
  }

  private void addEntry(Entry entry) {
    if (entries.size() == MOST_FILES) {
      throw new UploadRefused(
          Kind.TOO_LARGE,
          "the upload holds more than %d files; a bundle has at most 17".formatted(MOST_FILES));
    }
    entries.add(entry);
  }

  private static void requireInside(String name) {
    String path = name.replace('\\', '/');
    boolean outside =
        path.startsWith("/")
            || path.matches("[A-Za-z]:.*")
            || List.of(path.split("/")).contains("..");
    if (outside || path.indexOf('\0') >= 0) {
      throw new UploadRefused(
          Kind.UNREADABLE,
          "the ZIP names a file outside itself (%s); nothing was taken. Pack the files plainly"
              .formatted(shown(name)));
    }
  }

  private static String withoutFolders(String name) {
    String path = name.replace('\\', '/');
    return path.substring(path.lastIndexOf('/') + 1);
  }

  static String shown(String name) {
    String plain = name.replaceAll("\\p{Cntrl}", "?");
    return plain.length() > 100 ? plain.substring(0, 100) + "…" : plain;
  }

  List<Entry> entries() {
    return List.copyOf(entries);
  }

  @Override
  public void close() throws IOException {
    for (Closeable closeable : open) {
      closeable.close();
    }
  }
}
