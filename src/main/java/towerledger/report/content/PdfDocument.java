package towerledger.report.content;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FSFontUseCase;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PDFontSupplier;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Calendar;
import java.util.EnumSet;
import java.util.GregorianCalendar;
import java.util.logging.Level;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBufferedFile;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/**
 * Writes the printed form: tagged for screen readers (PDF/UA, ISO 14289-1), fonts embedded,
 * drawings as vectors.
 */
final class PdfDocument {

  static {
    // tells every page and font it reads; what goes wrong is still told
    XRLog.listRegisteredLoggers().forEach(logger -> XRLog.setLevel(logger, Level.WARNING));
  }

  private PdfDocument() {}

  /**
   * The document of a page in well-formed XHTML.
   *
   * @param writtenAt instant it says it was written at, so that the same page gives the same bytes
   */
  static byte[] of(String page, Instant writtenAt) {
    var out = new ByteArrayOutputStream(200_000);
    try (var document = new PDDocument();
        var regular = face(ReportFonts.REGULAR);
        var semiBold = face(ReportFonts.SEMI_BOLD);
        var italic = face(ReportFonts.ITALIC)) {
      var builder = new PdfRendererBuilder();
      builder.usePDDocument(document);
      builder.withHtmlContent(page, null);
      builder.useFastMode();
      builder.usePdfUaAccessibility(true);
      builder.useSVGDrawer(new BatikSVGDrawer());
      builder.withProducer("Tower Water Ledger");
      // Drawings are lettered in the regular face alone; each face costs them time.
      builder.useFont(
          ReportFonts.REGULAR,
          ReportFonts.FAMILY,
          400,
          FontStyle.NORMAL,
          true,
          EnumSet.of(FSFontUseCase.SVG));
      var upright = supplier(document, regular);
      var bold = supplier(document, semiBold);
      builder.useFont(upright, ReportFonts.FAMILY, 400, FontStyle.NORMAL, true);
      builder.useFont(bold, ReportFonts.FAMILY, 600, FontStyle.NORMAL, true);
      builder.useFont(bold, ReportFonts.FAMILY, 700, FontStyle.NORMAL, true);
      builder.useFont(supplier(document, italic), ReportFonts.FAMILY, 400, FontStyle.ITALIC, true);
      builder.toStream(out);
      try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
        renderer.layout();
        renderer.createPDFWithoutClosing();
        Calendar at = GregorianCalendar.from(writtenAt.atZone(ZoneOffset.UTC));
        document.getDocumentInformation().setCreationDate(at);
        document.getDocumentInformation().setModificationDate(at);
        document.setDocumentId(writtenAt.toEpochMilli());
        document.save(out);
      }
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException("the PDF of the report could not be written", e);
    }
  }

  /** A face without its ligatures: they would be drawn, but read and searched as other letters. */
  private static TrueTypeFont face(File file) throws IOException {
    TrueTypeFont face = new TTFParser().parse(new RandomAccessReadBufferedFile(file));
    face.setEnableGsub(false);
    return face;
  }

  private static PDFontSupplier supplier(PDDocument document, TrueTypeFont face)
      throws IOException {
    return new PDFontSupplier(PDType0Font.load(document, face, true));
  }
}
