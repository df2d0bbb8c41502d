package towerledger.office;

import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import towerledger.drawing.FigureText;
import towerledger.drawing.Layer;
import towerledger.finding.Finding;
import towerledger.logsheet.VisitCodes;
import towerledger.logsheet.VisitNote;
import towerledger.quantity.Span;
import towerledger.wording.Words;

/** What happened at a system: visits, repairs and the beginnings of faults, in order of time. */
public final class SystemEvents {

  private static final int LONGEST_TEXT = 160;

  private SystemEvents() {}

  /**
   * One thing that happened.
   *
   * @param at when
   * @param sign what sort of thing
   * @param says it in words
   */
  record Event(Instant at, Layer.Sign sign, String says) {}

  /** A visit in a list: its day and what was done or seen. */
  public record Visited(String day, String says) {}

  /**
   * The newest visits, newest first.
   *
   * @param notes oldest first
   * @param most at most so many
   */
  public static List<Visited> visits(
      List<VisitNote> notes, int most, ZoneId zone, Words words, FigureText text) {
    List<Visited> visits = new ArrayList<>();
    for (int i = notes.size() - 1; i >= 0 && visits.size() < most; i--) {
      VisitNote note = notes.get(i);
      visits.add(
          new Visited(text.day(LocalDate.ofInstant(note.visit().at(), zone)), says(note, words)));
    }
    return visits;
  }

  /** What happened in a span, oldest first. */
  static List<Event> list(List<VisitNote> visits, List<Finding> findings, Span span, Words words) {
    List<Event> events = new ArrayList<>();
    for (VisitNote note : visits) {
      boolean worked = !note.visit().events().isEmpty();
      events.add(
          new Event(
              note.visit().at(), worked ? Layer.Sign.REPAIR : Layer.Sign.VISIT, says(note, words)));
    }
    for (Finding finding : findings) {
      String cause = words.of("cause." + finding.likeliest().code());
      events.add(
          new Event(finding.began(), Layer.Sign.ONSET, words.of("system.event.onset", cause)));
      finding
          .workedAt()
          .ifPresent(
              at ->
                  events.add(
                      new Event(at, Layer.Sign.REPAIR, words.of("system.event.worked", cause))));
    }
    return events.stream()
        .filter(event -> span.contains(event.at()))
        .sorted(Comparator.comparing(Event::at))
        .toList();
  }

  /** What was done or seen on a visit, in a line. */
  private static String says(VisitNote note, Words words) {
    String done =
        note.visit().events().stream()
            .sorted()
            .map(event -> words.of("event." + VisitCodes.code(event)))
            .collect(Collectors.joining(", "));
    String written = note.workDone().or(note::observation).map(String::strip).orElse("");
    // "Basin drained, silt shovelled out" need not be headed "basin drained"
    boolean told = written.toLowerCase(words.locale()).startsWith(done.toLowerCase(words.locale()));
    String all = told ? written : written.isEmpty() ? done : done + ": " + written;
    if (all.isEmpty()) {
      return words.of("system.event.visit");
    }
    return all.length() <= LONGEST_TEXT ? all : all.substring(0, LONGEST_TEXT - 1).strip() + "…";
  }

  /** Their marks on an axis that begins with a month. */
  static List<Layer.Mark> marks(List<Event> events, YearMonth first, ZoneId zone, FigureText text) {
    List<Layer.Mark> marks = new ArrayList<>();
    for (Event event : events) {
      LocalDate day = LocalDate.ofInstant(event.at(), zone);
      YearMonth month = YearMonth.from(day);
      double slot =
          first.until(month, ChronoUnit.MONTHS)
              + (day.getDayOfMonth() - 0.5) / month.lengthOfMonth()
              - 0.5;
      marks.add(new Layer.Mark(slot, event.sign(), text.day(day) + "\n" + event.says()));
    }
    return marks;
  }
}
