package towerledger.report.content;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import towerledger.drawing.FigureText;
import towerledger.logsheet.LogRecords;
import towerledger.logsheet.VisitCodes;
import towerledger.logsheet.VisitNote;
import towerledger.quantity.Span;
import towerledger.wording.Words;

/**
 * Says what is being done about what is wrong, from the visits on record. The one place that would
 * also ask for findings and who has them in hand.
 */
@Component
class WorkInHand {

  private static final int MOST = 4;
  private static final int LONGEST = 300;

  private final LogRecords records;

  WorkInHand(LogRecords records) {
    this.records = records;
  }

  /** Visits to some systems, by system, oldest first. */
  Map<Long, List<VisitNote>> visits(Collection<Long> systemIds, Instant from, Instant to) {
    return systemIds.isEmpty() || !from.isBefore(to)
        ? Map.of()
        : records.listVisitNotes(systemIds, Span.of(from, to));
  }

  /** The newest visits in words, or that none is on record. */
  List<String> say(List<VisitNote> visits, ZoneId zone, Words words, FigureText text) {
    List<String> said = new ArrayList<>();
    for (VisitNote note : visits.subList(Math.max(0, visits.size() - MOST), visits.size())) {
      said.add(
          words.of(
              "report.matter.visit",
              text.day(note.visit().at().atZone(zone).toLocalDate()),
              what(note, words)));
    }
    return said.isEmpty() ? List.of(words.of("report.matter.no-visit")) : said;
  }

  private static String what(VisitNote note, Words words) {
    String done =
        note.workDone()
            .or(
                () ->
                    note.visit().events().isEmpty()
                        ? note.observation()
                        : java.util.Optional.of(
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
