package towerledger.report.content;

import java.util.ArrayList;
import java.util.List;
import towerledger.drawing.FigureText;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.Restatement;
import towerledger.wording.MoneyText;
import towerledger.wording.ReasonText;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Says which months changed since the last report, why, and both figures. */
record RestatedText(Words words, FigureText text) {

  List<MonthlyReport.Restated> say(List<Restatement> restatements) {
    List<MonthlyReport.Restated> said = new ArrayList<>();
    for (Restatement restatement : restatements) {
      LedgerEntry before = restatement.before();
      LedgerEntry after = restatement.after();
      List<MonthlyReport.Change> changes = new ArrayList<>();
      add(changes, "review.sum.makeup", makeup(before), makeup(after));
      add(changes, "review.sum.wasted", wasted(before), wasted(after));
      add(changes, "review.sum.cost", cost(before), cost(after));
      VerdictText verdict = new VerdictText(words, text);
      add(changes, "review.verdict", verdict.verdict(before), verdict.verdict(after));
      if (!changes.isEmpty()) {
        said.add(
            new MonthlyReport.Restated(
                words.of(
                    "report.restated.of",
                    text.month(after.month()),
                    words.of("report.of-site", after.of().systemName(), after.of().siteName())),
                new ReasonText(words, text).say(after.reason()),
                changes));
      }
    }
    return said;
  }

  private void add(List<MonthlyReport.Change> changes, String key, String before, String after) {
    if (!before.equals(after)) {
      changes.add(new MonthlyReport.Change(words.of(key), before, after));
    }
  }

  private String makeup(LedgerEntry row) {
    return new WaterText(words, text).volume(row.water().makeup());
  }

  private String wasted(LedgerEntry row) {
    if (!row.verdict().waste()) {
      return words.of("money.none");
    }
    return new WaterText(words, text).loss(row.water());
  }

  private String cost(LedgerEntry row) {
    return MoneyText.loss(row, text, words);
  }
}
