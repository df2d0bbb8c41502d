package towerledger.logsheet;

import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import towerledger.balance.facts.InspectionFinding;
import towerledger.balance.facts.Visit;

/**
 * The codes of {@code visits.csv}: events, and findings of the inspection list. In a cell they are
 * separated by semicolons; case and space around them do not matter.
 */
public final class VisitCodes {

  private static final int LONGEST_CODE_QUOTED = 60;

  private VisitCodes() {}

  /** The code of an event, for instance {@code basin-drained}. */
  public static String code(Visit.Event event) {
    return event.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * Events of a cell.
   *
   * @param cell codes separated by semicolons; may be empty
   * @throws IllegalArgumentException naming the code that is not known and those that are
   */
  public static Set<Visit.Event> parseEvents(String cell) {
    return parse(
        "event",
        cell,
        code -> Arrays.stream(Visit.Event.values()).filter(e -> code(e).equals(code)).findFirst(),
        Arrays.stream(Visit.Event.values()).map(VisitCodes::code).toList());
  }

  /**
   * Findings of a cell.
   *
   * @param cell codes separated by semicolons; may be empty
   * @throws IllegalArgumentException naming the code that is not known and those that are
   */
  public static Set<InspectionFinding> parseFindings(String cell) {
    return parse(
        "finding",
        cell,
        InspectionFinding::find,
        Arrays.stream(InspectionFinding.values()).map(InspectionFinding::code).toList());
  }

  /** The cell of some events, in their fixed order; empty for none. */
  public static String formatEvents(Collection<Visit.Event> events) {
    return events.stream().sorted().map(VisitCodes::code).collect(Collectors.joining(";"));
  }

  /** The cell of some findings, in their fixed order; empty for none. */
  public static String formatFindings(Collection<InspectionFinding> findings) {
    return findings.stream().sorted().map(InspectionFinding::code).collect(Collectors.joining(";"));
  }

  private static <T> Set<T> parse(
      String what, String cell, Function<String, Optional<T>> find, List<String> known) {
    var found = new LinkedHashSet<T>();
    for (String part : cell.split(";", -1)) {
      String code = part.strip().toLowerCase(Locale.ROOT);
      if (!code.isEmpty()) {
        found.add(find.apply(code).orElseThrow(() -> unknown(what, code, known)));
      }
    }
    return found;
  }

  private static IllegalArgumentException unknown(String what, String code, List<String> known) {
    String quoted =
        code.length() > LONGEST_CODE_QUOTED ? code.substring(0, LONGEST_CODE_QUOTED) + "…" : code;
    return new IllegalArgumentException(
        "%s '%s' is not on the list; use %s, separated by semicolons"
            .formatted(what, quoted, String.join(", ", known)));
  }
}
