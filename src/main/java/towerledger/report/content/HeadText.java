package towerledger.report.content;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerStatus;
import towerledger.wording.Words;

/**
 * What stands at the head of a report: title, lead, the sentences after it and the sums.
 *
 * @param unsettled systems whose figures are being reckoned anew while this is written
 */
record HeadText(ReportOrder order, Totals totals, int unsettled, Words words, FigureText text) {

  MonthlyReport.Head head(List<LedgerEntry> rows) {
    String month = text.month(order.month());
    String title = words.of("report.title", month);
    String glance = glance(rows.size());
    String subject =
        words.of(
            order.edition() > 1 ? "report.subject.corrected" : "report.subject",
            order.customer().name(),
            month,
            glance);
    return new MonthlyReport.Head(
        order.customer().name(),
        order.customer().contactName(),
        title,
        // blanks that hold figure and unit together are noise in the head of a mail
        subject.replace('\u00a0', ' '),
        glance.replace('\u00a0', ' '),
        text.locale(),
        order.units() == UnitPreference.US,
        words.of(
            "report.prepared",
            text.day(order.preparedAt().atZone(order.zone()).toLocalDate()),
            unsettled == 0
                ? standing(rows)
                : standing(rows) + " " + words.of("report.standing.unsettled", unsettled)),
        correction(),
        order.note() == null || order.note().isBlank() ? null : order.note().strip(),
        order.noteBy());
  }

  private @Nullable String correction() {
    return order.edition() > 1 ? words.of("report.correction", text.month(order.month())) : null;
  }

  private String standing(List<LedgerEntry> rows) {
    LedgerStatus least =
        rows.stream().map(LedgerEntry::status).min(LedgerStatus::compareTo).orElse(null);
    if (least == null) {
      return words.of("report.standing.none");
    }
    boolean restated = rows.stream().anyMatch(row -> row.status() == LedgerStatus.RESTATED);
    return words.of(
        switch (least) {
          case OPEN -> "report.standing.open";
          case PROVISIONAL -> "report.standing.provisional";
          case CLOSED, RESTATED -> restated ? "report.standing.restated" : "report.standing.closed";
        });
  }

  private String glance(int rows) {
    if (rows == 0 || totals.metered() == 0) {
      return words.of("report.glance.untold");
    }
    if (totals.wasting() == 0) {
      return words.of("report.glance.sound");
    }
    return totals.priced() == 0
        ? words.of("report.glance.wasted", totals.wastedAbout(text))
        : words.of("report.glance.cost", totals.wastedAbout(text), totals.costAbout(text));
  }

  String lead(int rows) {
    String month = text.month(order.month());
    if (rows == 0) {
      return words.of("report.lead.nothing", month);
    }
    if (totals.metered() == 0) {
      return words.of("report.lead.unmetered", month, rows);
    }
    return words.of(
        "report.lead",
        month,
        totals.metered(),
        totals.makeup(text),
        totals.explained(text),
        totals.soundLitres() > totals.makeupLitres() ? 1 : 0);
  }

  List<String> sentences() {
    List<String> said = new ArrayList<>();
    if (totals.metered() > 0) {
      if (totals.wasting() == 0) {
        said.add(words.of("report.lead.sound", totals.metered()));
      } else if (totals.priced() == 0) {
        said.add(words.of("report.lead.unpriced", totals.wasting(), totals.wasted(text)));
      } else {
        said.add(
            words.of(
                "report.lead.waste", totals.wasting(), totals.wasted(text), totals.cost(text)));
        if (totals.priced() < totals.wasting()) {
          said.add(words.of("report.lead.partly", totals.wasting() - totals.priced()));
        }
      }
    }
    if (totals.untold() > 0) {
      said.add(words.of("report.lead.untold", totals.untold()));
    }
    return said;
  }

  List<MonthlyReport.Sum> sums() {
    List<MonthlyReport.Sum> sums = new ArrayList<>();
    boolean metered = totals.metered() > 0;
    String unknown = words.of("figure.unknown");
    boolean waste = totals.wasting() > 0;
    add(sums, "review.sum.makeup", metered ? totals.makeup(text) : unknown, false);
    add(sums, "review.sum.explained", metered ? totals.explained(text) : unknown, false);
    add(
        sums,
        "review.sum.wasted",
        !metered ? unknown : waste ? totals.wasted(text) : words.of("money.none"),
        waste);
    add(
        sums,
        "review.sum.cost",
        !metered
            ? unknown
            : !waste
                ? words.of("money.none")
                : totals.priced() == 0 ? words.of("money.unpriced") : totals.cost(text),
        waste);
    if (totals.isCreditKnown()) {
      add(sums, "review.sum.unclaimed", totals.unclaimed(text), false);
    }
    return sums;
  }

  private void add(List<MonthlyReport.Sum> sums, String key, String figure, boolean lost) {
    sums.add(new MonthlyReport.Sum(words.of(key), figure, lost));
  }
}
