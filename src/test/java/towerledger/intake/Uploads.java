package towerledger.intake;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Uploads put together in a test, and the small book of one customer that most of them need. */
final class Uploads {

  private Uploads() {}

  /** A ZIP of files given as name, text, name, text … in that order. */
  static byte[] zip(String... namesAndTexts) {
    var files = new LinkedHashMap<String, byte[]>();
    for (int i = 0; i < namesAndTexts.length; i += 2) {
      files.put(namesAndTexts[i], namesAndTexts[i + 1].getBytes(StandardCharsets.UTF_8));
    }
    return zip(files);
  }

  static byte[] zip(Map<String, byte[]> files) {
    var bytes = new ByteArrayOutputStream();
    try (var zip = new ZipOutputStream(bytes)) {
      for (var file : files.entrySet()) {
        zip.putNextEntry(new ZipEntry(file.getKey()));
        zip.write(file.getValue());
        zip.closeEntry();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /** Takes a ZIP in as at the start of the program, from a folder that is the test's own. */
  static ImportReceipt take(Importer importer, Path folder, byte[] zip) throws IOException {
    Path file = folder.resolve("upload.zip");
    Files.write(file, zip);
    try (var upload = Upload.of(file)) {
      return importer.take(upload, ImportRequest.startUp("test"));
    }
  }

  /**
   * One customer with a site in Chicago, one tower that is its own system and two meters. All codes
   * begin with the prefix.
   */
  static byte[] book(String prefix) {
    return zip(
        "meters.csv",
            """
            meter,system,role,unit,register_digits
            %1$s-MU,%1$s-T1,makeup,gal,6
            %1$s-BD,%1$s-T1,blowdown,gal,6
            """
                .formatted(prefix),
        "towers.csv",
            """
            tower,site,name,nominal_tons,started_on,target_cycles
            %1$s-T1,%1$s-S,Tower,300,2020-01-01,4
            """
                .formatted(prefix),
        "sites.csv",
            """
            site,customer,name,time_zone,station
            %1$s-S,%1$s,Site,America/Chicago,%1$s-W
            """
                .formatted(prefix),
        "customers.csv", "customer,name\n%1$s,Customer\n".formatted(prefix));
  }
}
