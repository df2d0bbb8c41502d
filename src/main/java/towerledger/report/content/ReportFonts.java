package towerledger.report.content;

import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.GraphicsEnvironment;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.StandardCopyOption;

/**
 * The one typeface of the reports, packed with the program so that they look alike everywhere. It
 * is laid out as files once a run, since drawings inside a PDF take their typeface from files
 * alone.
 */
final class ReportFonts {

  static final String FAMILY = "Source Serif 4";
  static final File REGULAR = file("SourceSerif4-Regular.ttf");
  static final File SEMI_BOLD = file("SourceSerif4-SemiBold.ttf");
  static final File ITALIC = file("SourceSerif4-Italic.ttf");

  private ReportFonts() {}

  /** Makes the typeface known to what draws pictures. */
  static void register() {
    GraphicsEnvironment environment = GraphicsEnvironment.getLocalGraphicsEnvironment();
    for (File file : new File[] {REGULAR, SEMI_BOLD, ITALIC}) {
      try {
        environment.registerFont(Font.createFont(Font.TRUETYPE_FONT, file));
      } catch (FontFormatException e) {
        throw new IllegalStateException("a packed font is damaged", e);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static File file(String name) {
    try (InputStream packed = ReportFonts.class.getResourceAsStream("/fonts/" + name)) {
      if (packed == null) {
        throw new IllegalStateException("the font " + name + " is not packed");
      }
      File file = File.createTempFile("ledger-", "-" + name);
      file.deleteOnExit();
      Files.copy(packed, file.toPath(), StandardCopyOption.REPLACE_EXISTING);
      return file;
    } catch (IOException e) {
      throw new UncheckedIOException("the fonts of the reports could not be laid out", e);
    }
  }
}
