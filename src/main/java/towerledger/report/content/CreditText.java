package towerledger.report.content;

import java.util.ArrayList;
import java.util.List;
import towerledger.drawing.FigureText;
import towerledger.ledger.LedgerEntry;
import towerledger.wording.Words;

/** Says what the sewer credit for evaporated water comes to, this month and this year. */
record CreditText(Words words, FigureText text) {

  List<String> say(Totals month, ReportWriter.Gathered gathered, ReportOrder order) {
    if (!month.isCreditKnown()) {
      return List.of();
    }
    List<String> said = new ArrayList<>();
    said.add(
        words.of(
            month.isCreditUnclaimed() ? "report.credit.unclaimed" : "report.credit.claimed",
            month.credit(text),
            month.claimed(text),
            month.unclaimed(text)));
    List<LedgerEntry> year =
        gathered.trends().values().stream()
            .flatMap(List::stream)
            .filter(row -> row.month().getYear() == order.month().getYear())
            .toList();
    Totals soFar = new Totals(year, order.customer().currency());
    if (soFar.isCreditUnclaimed() && order.month().getMonthValue() > 1) {
      said.add(
          words.of(
              "report.credit.year",
              String.valueOf(order.month().getYear()),
              soFar.unclaimed(text)));
    }
    return said;
  }
}
