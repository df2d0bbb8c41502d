package towerledger.report.content;

import java.util.ArrayList;
import java.util.List;
import towerledger.wording.Words;

/** The report as plain text of at most 72 columns, for readers of mail without pictures. */
record PlainText(Words words) {

  private static final int WIDTH = 72;

  String of(MonthlyReport report) {
    List<String> out = new ArrayList<>();
    MonthlyReport.Head head = report.head();
    out.add(head.customer());
    out.add(head.title());
    out.add("=".repeat(Math.min(WIDTH, head.title().length())));
    wrap(out, head.prepared(), "");
    if (head.correction() != null) {
      paragraph(out, head.correction());
    }
    if (head.note() != null) {
      out.add("");
      head.noteParagraphs().forEach(line -> wrap(out, line, "| "));
      if (head.noteBy() != null) {
        out.add("| " + head.noteBy());
      }
    }
    paragraph(out, report.lead());
    report.sentences().forEach(sentence -> wrap(out, sentence, ""));
    out.add("");
    int widest = report.sums().stream().mapToInt(sum -> sum.name().length()).max().orElse(0);
    report
        .sums()
        .forEach(
            sum ->
                out.add(
                    sum.name()
                        + " ".repeat(widest - sum.name().length() + 2)
                        + sum.figure().replace('\u00a0', ' ')));
    if (report.picture().isDrawn()) {
      heading(out, words.of("system.where"));
      wrap(out, report.picture().text(), "");
    }
    matters(out, report);
    others(out, report);
    out.add("");
    wrap(out, words.of("report.attached"), "");
    wrap(out, words.of("page.foot"), "");
    out.add("");
    out.add("-- ");
    wrap(out, words.of("report.sent-to", Rendered.RECIPIENT), "");
    out.add(words.of("report.leave.plain", Rendered.LEAVE));
    return String.join("\n", out).replace('\u00a0', ' ') + "\n";
  }

  private void matters(List<String> out, MonthlyReport report) {
    if (!report.matters().isEmpty()) {
      heading(out, words.of("report.matters"));
      for (MonthlyReport.Matter matter : report.matters()) {
        out.add("");
        wrap(out, "* " + matter.system(), "");
        wrap(out, (matter.says() + " " + matter.since()).strip(), "  ");
        wrap(out, words.of("report.matter.cause") + " " + matter.cause(), "  ");
        if (!matter.why().isEmpty()) {
          wrap(out, words.of("report.matter.why") + " " + matter.why(), "  ");
        }
        wrap(
            out, words.of("report.matter.in-hand") + " " + String.join(" ", matter.inHand()), "  ");
        wrap(out, words.of("report.matter.next") + " " + matter.next(), "  ");
      }
    }
    if (!report.cautions().isEmpty()) {
      heading(out, words.of("system.cautions"));
      report.cautions().forEach(caution -> wrap(out, "- " + caution, ""));
    }
  }

  private void others(List<String> out, MonthlyReport report) {
    if (!report.untold().isEmpty()) {
      heading(out, words.of("report.untold"));
      for (MonthlyReport.Untold untold : report.untold()) {
        wrap(out, "* " + untold.system() + ". " + untold.says(), "");
        wrap(out, words.of("report.untold.add", untold.toAdd()), "  ");
      }
    }
    if (!report.restated().isEmpty()) {
      heading(out, words.of("report.restated"));
      for (MonthlyReport.Restated restated : report.restated()) {
        wrap(
            out,
            "* " + restated.system() + " " + words.of("report.restated.reason", restated.reason()),
            "");
        for (MonthlyReport.Change change : restated.changes()) {
          wrap(
              out,
              words.of("report.restated.change", change.name(), change.before(), change.after()),
              "  ");
        }
      }
    }
    if (!report.credits().isEmpty()) {
      heading(out, words.of("report.credit"));
      report.credits().forEach(credit -> wrap(out, credit, ""));
    }
    if (!report.evidence().isEmpty()) {
      heading(out, words.of("report.evidence"));
      report.evidence().forEach(evidence -> wrap(out, evidence, ""));
    }
  }

  private static void heading(List<String> out, String heading) {
    out.add("");
    out.add(heading);
    out.add("-".repeat(Math.min(WIDTH, heading.length())));
  }

  private static void paragraph(List<String> out, String text) {
    out.add("");
    wrap(out, text, "");
  }

  /** Breaks a text at blanks; a figure and its unit stay together. */
  private static void wrap(List<String> out, String text, String indent) {
    StringBuilder line = new StringBuilder(indent);
    for (String word : text.split(" ")) {
      if (line.length() > indent.length() && line.length() + 1 + word.length() > WIDTH) {
        out.add(line.toString());
        line = new StringBuilder(indent);
      }
      if (line.length() > indent.length()) {
        line.append(' ');
      }
      line.append(word);
    }
    out.add(line.toString());
  }
}
