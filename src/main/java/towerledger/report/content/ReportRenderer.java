package towerledger.report.content;

import java.time.Instant;
import java.util.Map;
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
  private final PrintedPage printed;

  ReportRenderer(ITemplateEngine templates, MessageSource messages, PrintedPage printed) {
    this.templates = templates;
    this.messages = messages;
    this.printed = printed;
  }

  /** Renders a report. The same report always gives the same bytes. */
  public Rendered render(ReportOrder order, ReportWriter.Written written) {
    MonthlyReport report = written.report();
    Words words = new Words(messages, report.head().locale());
    return new Rendered(
        report.head().subject(),
        html(report),
        new PlainText(words).of(report),
        print(report, order.preparedAt()),
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

  private byte[] print(MonthlyReport report, Instant writtenAt) {
    return printed.pdf(
        "report/print",
        Map.of(
            "r",
            report,
            "picture",
            PrintedPage.described(report.picture().svg()),
            "charts",
            report.charts().stream().map(chart -> PrintedPage.described(chart.svg())).toList(),
            "trends",
            report.sites().stream()
                .map(
                    site ->
                        site.rows().stream()
                            .map(row -> PrintedPage.described(row.trend()))
                            .toList())
                .toList()),
        report.head().locale(),
        report.head().letterPaper(),
        writtenAt);
  }
}
