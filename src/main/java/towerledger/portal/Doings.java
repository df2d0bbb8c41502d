package towerledger.portal;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.finding.Finding;
import towerledger.finding.FindingStatus;
import towerledger.finding.Findings;
import towerledger.ledger.LedgerEntry;
import towerledger.wording.VerdictText;
import towerledger.wording.Words;

/** Says what is being done about a month's verdict: how far its finding has come. */
@Component
class Doings {

  private static final int MOST = 2000;

  private final Findings findings;

  Doings(Findings findings) {
    this.findings = findings;
  }

  /** All findings this viewer may see. */
  List<Finding> all(Viewer viewer) {
    return findings.list(viewer, List.of(FindingStatus.values()), 0, MOST);
  }

  /**
   * In a sentence or two; empty where nothing is wrong.
   *
   * @param candidates findings that may be about this month, of this and other systems
   */
  static String about(
      LedgerEntry entry, Collection<Finding> candidates, Words words, FigureText text) {
    if (!entry.verdict().flagged()) {
      return "";
    }
    String first =
        words.of(
            "portal.doing.next", new VerdictText(words, text).next(entry.verdict().likeliest()));
    return of(entry, candidates)
        .max(Comparator.comparing(Finding::last).thenComparing(Finding::id))
        .map(finding -> said(finding, first, words))
        .orElse(first);
  }

  private static Stream<Finding> of(LedgerEntry entry, Collection<Finding> candidates) {
    return candidates.stream()
        .filter(
            finding ->
                finding.of().system().equals(entry.of().system())
                    && !entry.month().isBefore(finding.first())
                    && !entry.month().isAfter(finding.last()));
  }

  private static String said(Finding finding, String first, Words words) {
    String state = words.of("portal.doing." + finding.status().code());
    return finding.status().awaitsWork() ? state + " " + first : state;
  }
}
