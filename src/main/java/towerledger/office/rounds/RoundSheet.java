package towerledger.office.rounds;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import towerledger.account.UnitPreference;
import towerledger.balance.facts.InspectionFinding;
import towerledger.balance.facts.SupplyPressure;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.logsheet.VisitCodes;
import towerledger.logsheet.VisitNote;
import towerledger.page.TypedNumber;
import towerledger.quantity.Pressure;

/**
 * What somebody typed at a tower, read. Every value may stay empty; the sheet as a whole may not.
 *
 * @param at when
 * @param registers registers by the meter's code
 * @param sample conductivities; empty where none was typed
 * @param pressure pressures
 * @param visit what was seen and done
 */
record RoundSheet(
    Instant at,
    Map<String, BigDecimal> registers,
    Optional<WaterSample> sample,
    Optional<SupplyPressure> pressure,
    Optional<VisitNote> visit) {

  static final String REGISTER = "register-";
  static final List<String> CONDUCTIVITIES =
      List.of("makeup-conductivity", "basin-conductivity", "handheld", "controller");
  static final List<String> PRESSURES = List.of("supply-pressure", "valve-pressure");
  private static final double HIGHEST_CONDUCTIVITY = 100_000;
  private static final double HIGHEST_PSI = 1000;
  private static final int LONGEST_TEXT = 2000;
  private static final Duration AHEAD = Duration.ofHours(1);
  private static final Duration BEHIND = Duration.ofDays(400);

  boolean isEmpty() {
    return registers.isEmpty() && sample.isEmpty() && pressure.isEmpty() && visit.isEmpty();
  }

  /** A sheet that cannot be read, with the text key of what is wrong by field. */
  static final class Unreadable extends Exception {

    private static final long serialVersionUID = 1L;
    private final transient Map<String, String> wrong;

    Unreadable(Map<String, String> wrong) {
      super("fields " + wrong.keySet());
      this.wrong = Map.copyOf(wrong);
    }

    Map<String, String> wrong() {
      return wrong;
    }
  }

  /**
   * Reads what was typed.
   *
   * @param typed values by name of the field
   * @param findings codes ticked in the inspection list
   * @param events codes of work ticked
   * @param units units the pressures are typed in
   * @param zone zone of the site, in which {@code when} is typed
   * @param now now
   * @throws Unreadable naming every field that is wrong
   */
  static RoundSheet read(
      Map<String, String> typed,
      Set<String> findings,
      Set<String> events,
      UnitPreference units,
      ZoneId zone,
      Instant now)
      throws Unreadable {
    Map<String, String> wrong = new LinkedHashMap<>();
    Instant at = instant(typed.getOrDefault("when", ""), zone, now, wrong);
    Map<String, BigDecimal> registers = new LinkedHashMap<>();
    Map<String, Double> numbers = new HashMap<>();
    typed.forEach(
        (field, text) -> {
          if (text.isBlank()) {
            return;
          }
          if (field.startsWith(REGISTER)) {
            register(text)
                .ifPresentOrElse(
                    value -> registers.put(field.substring(REGISTER.length()), value),
                    () -> wrong.put(field, "field.number"));
          } else if (CONDUCTIVITIES.contains(field)) {
            number(field, text, HIGHEST_CONDUCTIVITY, numbers, wrong);
          } else if (PRESSURES.contains(field)) {
            number(
                field,
                text,
                HIGHEST_PSI * (units == UnitPreference.SI ? 6.894757 : 1),
                numbers,
                wrong);
          } else if (text.length() > LONGEST_TEXT) {
            wrong.put(field, "round.too-long");
          }
        });
    Set<Visit.Event> done = events(events, wrong);
    if (!wrong.isEmpty()) {
      throw new Unreadable(wrong);
    }
    return new RoundSheet(
        at,
        registers,
        sample(at, numbers),
        pressure(at, numbers, units),
        visit(at, typed, numbers, findings, done));
  }

  private static Instant instant(
      String typed, ZoneId zone, Instant now, Map<String, String> wrong) {
    try {
      Instant at = LocalDateTime.parse(typed.strip()).atZone(zone).toInstant();
      if (at.isAfter(now.plus(AHEAD)) || at.isBefore(now.minus(BEHIND))) {
        wrong.put("when", "round.at.range");
      }
      return at;
    } catch (DateTimeException e) {
      wrong.put("when", "round.at.wrong");
      return now;
    }
  }

  private static Set<Visit.Event> events(Set<String> codes, Map<String, String> wrong) {
    try {
      return VisitCodes.parseEvents(String.join(";", codes));
    } catch (IllegalArgumentException e) {
      wrong.put("event", "round.event.unknown");
      return Set.of();
    }
  }

  private static Optional<BigDecimal> register(String text) {
    return TypedNumber.find(text).isPresent()
        ? Optional.of(new BigDecimal(text.strip().replaceAll("[ \\u00a0\\u202f,]", "")))
            .filter(value -> value.signum() >= 0)
        : Optional.empty();
  }

  private static void number(
      String field,
      String text,
      double highest,
      Map<String, Double> numbers,
      Map<String, String> wrong) {
    OptionalDouble value = TypedNumber.find(text);
    if (value.isEmpty()) {
      wrong.put(field, "field.number");
    } else if (!(value.getAsDouble() > 0) || value.getAsDouble() > highest) {
      wrong.put(field, "round.range");
    } else {
      numbers.put(field, value.getAsDouble());
    }
  }

  private static OptionalDouble get(Map<String, Double> numbers, String field) {
    Double value = numbers.get(field);
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  private static Optional<WaterSample> sample(Instant at, Map<String, Double> numbers) {
    OptionalDouble makeup = get(numbers, "makeup-conductivity");
    OptionalDouble basin = get(numbers, "basin-conductivity");
    if (makeup.isEmpty() && basin.isEmpty()) {
      return Optional.empty();
    }
    OptionalDouble none = OptionalDouble.empty();
    return Optional.of(new WaterSample(at, makeup, basin, none, none, none, none));
  }

  private static Optional<SupplyPressure> pressure(
      Instant at, Map<String, Double> numbers, UnitPreference units) {
    OptionalDouble supply = pascals(get(numbers, "supply-pressure"), units);
    OptionalDouble valve = pascals(get(numbers, "valve-pressure"), units);
    return supply.isEmpty() && valve.isEmpty()
        ? Optional.empty()
        : Optional.of(new SupplyPressure(at, supply, valve));
  }

  private static OptionalDouble pascals(OptionalDouble typed, UnitPreference units) {
    if (typed.isEmpty()) {
      return typed;
    }
    double value = typed.getAsDouble();
    return OptionalDouble.of(
        1000
            * (units == UnitPreference.SI
                ? Pressure.ofKilopascals(value).kilopascals()
                : Pressure.ofPsi(value).kilopascals()));
  }

  private static Optional<VisitNote> visit(
      Instant at,
      Map<String, String> typed,
      Map<String, Double> numbers,
      Set<String> findings,
      Set<Visit.Event> done) {
    Set<InspectionFinding> found = EnumSet.noneOf(InspectionFinding.class);
    findings.forEach(code -> InspectionFinding.find(code).ifPresent(found::add));
    Optional<String> seen = text(typed, "observation");
    Optional<String> work = text(typed, "work");
    OptionalDouble handheld = get(numbers, "handheld");
    OptionalDouble controller = get(numbers, "controller");
    if (found.isEmpty()
        && done.isEmpty()
        && seen.isEmpty()
        && work.isEmpty()
        && handheld.isEmpty()
        && controller.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new VisitNote(
            new Visit(
                at,
                done,
                OptionalDouble.empty(),
                found,
                handheld,
                controller,
                OptionalDouble.empty()),
            seen,
            work));
  }

  private static Optional<String> text(Map<String, String> typed, String field) {
    return Optional.of(typed.getOrDefault(field, "").strip()).filter(words -> !words.isEmpty());
  }
}
