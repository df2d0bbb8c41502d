package towerledger.report.content;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import towerledger.drawing.FigureText;
import towerledger.finding.Finding;
import towerledger.finding.Findings;
import towerledger.logsheet.LogRecords;
import towerledger.logsheet.VisitCodes;
import towerledger.logsheet.VisitNote;
import towerledger.quantity.Span;
import towerledger.wording.Words;

/** Says what is being done about what is wrong, from findings in hand and visits on record. */
@Component
class WorkInHand {

  private static final int MOST = 4;
  private static final int LONGEST = 300;

  private final LogRecords records;
  private final Findings findings;

  WorkInHand(LogRecords records, Findings findings) {
    this.records = records;
    this.findings = findings;
  }

  /** Visits to some systems, by system, oldest first. */
  Map<Long, List<VisitNote>> visits(Collection<Long> systemIds, Instant from, Instant to) {
    return systemIds.isEmpty() || !from.isBefore(to)
        ? Map.of()
        : records.listVisitNotes(systemIds, Span.of(from, to));
  }

  /**
   * What is in hand in words: how far the findings have come, then the newest visits; or that
   * nothing is on record.
   *
   * @param systemId the system; the caller has seen to it that the reader may see it
   * @param month findings seen in it or later are told of
   */
  List<String> say(
      long systemId,
      YearMonth month,
      List<VisitNote> visits,
      ZoneId zone,
      Words words,
      FigureText text) {
    List<String> said = new ArrayList<>();
    for (Finding finding : findings.listOf(systemId)) {
      if (!finding.last().isBefore(month)) {
        said.add(state(finding, zone, words, text));
      }
    }
    for (VisitNote note : visits.subList(Math.max(0, visits.size() - MOST), visits.size())) {
      said.add(
          words.of(
              "report.matter.visit",
              text.day(note.visit().at().atZone(zone).toLocalDate()),
              what(note, words).replaceFirst("[.\\s]+$", "")));
    }
    return said.isEmpty() ? List.of(words.of("report.matter.no-visit")) : said;
  }

  /** Names of those who are sent stay inside the house. */
  private static String state(Finding finding, ZoneId zone, Words words, FigureText text) {
    String worked =
        finding.workedAt().map(at -> text.day(at.atZone(zone).toLocalDate())).orElse("");
    return words.of("report.finding." + finding.status().code(), worked);
  }

  private static String what(VisitNote note, Words words) {
    String done =
        note.workDone()
            .or(
                () ->
                    note.visit().events().isEmpty()
                        ? note.observation()
                        : Optional.of(
                            note.visit().events().stream()
                                .sorted()
                                .map(event -> words.of("report.event." + VisitCodes.code(event)))
                                .collect(Collectors.joining(", "))))
            .map(String::strip)
            .filter(s -> !s.isEmpty())
            .orElse(words.of("report.matter.looked"));
    return done.length() <= LONGEST ? done : done.substring(0, LONGEST - 1).strip() + "…";
  }
}
