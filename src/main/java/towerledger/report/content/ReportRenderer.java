package towerledger.report.content;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.thymeleaf.ITemplateEngine;
import org.thymeleaf.context.Context;
import towerledger.wording.Words;

/** Turns one report into all the forms it is sent in. */
@Component
public class ReportRenderer {

  private final ITemplateEngine templates;
  private final MessageSource messages;
  private final String printSheet;

  ReportRenderer(ITemplateEngine templates, MessageSource messages) {
    this.templates = templates;
    this.messages = messages;
    // before anything draws: whoever draws first remembers the typefaces there are
    ReportFonts.register();
    try (InputStream sheet =
        ReportRenderer.class.getResourceAsStream("/templates/report/print.css")) {
      if (sheet == null) {
        throw new IllegalStateException("the style sheet of the printed report is not packed");
      }
      this.printSheet = new String(sheet.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Renders a report. The same report always gives the same bytes. */
  public Rendered render(ReportOrder order, ReportWriter.Written written) {
    MonthlyReport report = written.report();
    Words words = new Words(messages, report.head().locale());
    return new Rendered(
        report.head().subject(),
        html(report),
        new PlainText(words).of(report),
        PdfDocument.of(print(report), order.preparedAt()),
        written.csv(),
        report.picture().isDrawn() ? PictureFile.png(report.picture().svg()) : new byte[0],
        report.notable());
  }

  private String html(MonthlyReport report) {
    var context = new Context(report.head().locale());
    context.setVariable("r", report);
    context.setVariable("pictureSource", "cid:" + Rendered.PICTURE_ID);
    context.setVariable("recipient", Rendered.RECIPIENT);
    context.setVariable("leave", Rendered.LEAVE);
    return templates.process("report/mail", context);
  }

  private String print(MonthlyReport report) {
    var context = new Context(report.head().locale());
    context.setVariable("r", report);
    context.setVariable(
        "sheet",
        printSheet.replace("PAPER", report.head().letterPaper() ? "letter portrait" : "A4"));
    context.setVariable("picture", described(report.picture().svg()));
    context.setVariable(
        "charts", report.charts().stream().map(chart -> described(chart.svg())).toList());
    context.setVariable(
        "trends",
        report.sites().stream()
            .map(site -> site.rows().stream().map(row -> described(row.trend())).toList())
            .toList());
    return templates.process("report/print", context);
  }

  /** The PDF writer takes a drawing's words from the attribute that pictures have. */
  private static String described(String svg) {
    return svg.replaceFirst(" role=\"img\" aria-label=", " role=\"img\" alt=");
  }
}
