package towerledger.report.content;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import org.springframework.modulith.NamedInterface;
import org.springframework.stereotype.Component;
import org.thymeleaf.ITemplateEngine;
import org.thymeleaf.context.Context;

/** Prints a template as PDF: one style sheet and one typeface for all that is handed over. */
@Component
@NamedInterface("print")
public class PrintedPage {

  private final ITemplateEngine templates;
  private final String sheet;

  PrintedPage(ITemplateEngine templates) {
    this.templates = templates;
    // before anything draws: whoever draws first remembers the typefaces there are
    ReportFonts.register();
    try (InputStream packed =
        PrintedPage.class.getResourceAsStream("/templates/report/print.css")) {
      if (packed == null) {
        throw new IllegalStateException("the style sheet of printed pages is not packed");
      }
      this.sheet = new String(packed.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The PDF of a template that writes well-formed XHTML and takes the style sheet as {@code sheet}.
   *
   * @param variables what the template shows
   * @param letterPaper US letter rather than A4
   * @param writtenAt instant it says it was written at, so that the same page gives the same bytes
   */
  public byte[] pdf(
      String template,
      Map<String, Object> variables,
      Locale locale,
      boolean letterPaper,
      Instant writtenAt) {
    Map<String, Object> all = new HashMap<>(variables);
    all.put("sheet", sheet.replace("PAPER", letterPaper ? "letter portrait" : "A4"));
    return PdfDocument.of(templates.process(template, new Context(locale, all)), writtenAt);
  }

  /** The PDF writer takes a drawing's words from the attribute that pictures have. */
  public static String described(String svg) {
    return svg.replaceFirst(" role=\"img\" aria-label=", " role=\"img\" alt=");
  }
}
