package towerledger.report.content;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FSFontUseCase;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
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
import java.util.Set;
import java.util.logging.Level;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * Writes the printed form: tagged for screen readers (PDF/UA, ISO 14289-1), fonts embedded,
 * drawings as vectors.
 */
final class PdfDocument {

  private static final Set<FSFontUseCase> TEXT = EnumSet.of(FSFontUseCase.DOCUMENT);

  /** Drawings are lettered in the regular face alone; each face costs them time. */
  private static final Set<FSFontUseCase> TEXT_AND_DRAWINGS =
      EnumSet.of(FSFontUseCase.DOCUMENT, FSFontUseCase.SVG);

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
    var builder = new PdfRendererBuilder();
    builder.withHtmlContent(page, null);
    builder.useFastMode();
    builder.usePdfUaAccessibility(true);
    builder.useSVGDrawer(new BatikSVGDrawer());
    builder.withProducer("Tower Water Ledger");
    font(builder, ReportFonts.REGULAR, 400, FontStyle.NORMAL, TEXT_AND_DRAWINGS);
    font(builder, ReportFonts.SEMI_BOLD, 600, FontStyle.NORMAL, TEXT);
    font(builder, ReportFonts.SEMI_BOLD, 700, FontStyle.NORMAL, TEXT);
    font(builder, ReportFonts.ITALIC, 400, FontStyle.ITALIC, TEXT);
    builder.toStream(out);
    try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
      renderer.layout();
      renderer.createPDFWithoutClosing();
      PDDocument document = renderer.getPdfDocument();
      Calendar at = GregorianCalendar.from(writtenAt.atZone(ZoneOffset.UTC));
      document.getDocumentInformation().setCreationDate(at);
      document.getDocumentInformation().setModificationDate(at);
      document.setDocumentId(writtenAt.toEpochMilli());
      document.save(out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException("the PDF of the report could not be written", e);
    }
  }

  private static void font(
      PdfRendererBuilder builder, File file, int weight, FontStyle style, Set<FSFontUseCase> use) {
    builder.useFont(file, ReportFonts.FAMILY, weight, style, true, use);
  }
}
