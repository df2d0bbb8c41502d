package towerledger.simulation.fleet;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import towerledger.balance.MonthVerdict;
import towerledger.balance.Reconciler;
import towerledger.quantity.CalendarMonth;
import towerledger.simulation.Fault;
import towerledger.simulation.HourGrid;
import towerledger.simulation.MonthTruth;

/**
 * One plant judged, month by month.
 *
 * @param plant its name
 * @param grade grade of its heat evidence
 * @param bleedMeter whether its bleed is metered
 * @param intervals whether its makeup is logged
 * @param bleedMode how its bleed is controlled
 * @param fault the planted fault, or empty
 * @param onset when it began (the record's begin if it was there from the first day)
 */
record ScoredPlant(
    String plant,
    char grade,
    boolean bleedMeter,
    boolean intervals,
    String bleedMode,
    Optional<Fault> fault,
    Optional<Instant> onset,
    List<ScoredMonth> months) {

  static final List<YearMonth> MONTHS =
      IntStream.range(0, 18).mapToObj(i -> YearMonth.from(FleetPlan.FROM).plusMonths(i)).toList();

  static ScoredPlant judge(FleetMember member, Reconciler reconciler) {
    List<MonthVerdict> verdicts =
        reconciler.judge(member.facts(), MONTHS.get(0), MONTHS.get(MONTHS.size() - 1));
    Spreadsheets sheets = new Spreadsheets(member, MONTHS);
    List<Boolean> thumb = sheets.ruleOfThumb();
    List<Boolean> year = sheets.lastYear();
    HourGrid grid = member.run().operation().hours().grid();
    List<ScoredMonth> months = new ArrayList<>();
    for (int i = 0; i < MONTHS.size(); i++) {
      CalendarMonth month = CalendarMonth.of(MONTHS.get(i), member.facts().zone());
      int from = grid.indexOf(month.span().startInclusive());
      int to = grid.indexOf(month.span().endExclusive());
      boolean active =
          member.fault().map(f -> f.fromHour() < to && f.toHour() > from).orElse(false);
      months.add(
          new ScoredMonth(
              i,
              MonthTruth.of(member.run(), member.twin(), MONTHS.get(i)),
              active,
              verdicts.get(i),
              thumb.get(i),
              year.get(i)));
    }
    Instant begin = FleetPlan.FROM.atStartOfDay(member.facts().zone()).toInstant();
    Optional<Instant> onset =
        member.fault().map(f -> grid.at(f.fromHour())).map(at -> at.isBefore(begin) ? begin : at);
    return new ScoredPlant(
        member.spec().name(),
        member.grade(),
        member.evidence().bleedMeter(),
        member.evidence().intervals() != null,
        member.spec().bleed().mode().code(),
        member.fault(),
        onset,
        months);
  }

  /** Runs of flagged months. */
  int episodes(java.util.function.Predicate<ScoredMonth> flag) {
    int episodes = 0;
    boolean before = false;
    for (ScoredMonth month : months) {
      boolean now = flag.test(month);
      if (now && !before) {
        episodes++;
      }
      before = now;
    }
    return episodes;
  }

  /**
   * Days from the onset of a wasteful fault to the end of the first month flagged for waste since;
   * infinite when it never was, empty when no month was positive.
   */
  OptionalDouble delayDays() {
    if (onset.isEmpty() || months.stream().noneMatch(ScoredMonth::positive)) {
      return OptionalDouble.empty();
    }
    for (ScoredMonth month : months) {
      Instant end = end(month);
      if (month.wasteFlag() && month.faultActive()) {
        return OptionalDouble.of(Duration.between(onset.get(), end).toHours() / 24.0);
      }
    }
    return OptionalDouble.of(Double.POSITIVE_INFINITY);
  }

  /** Days from the onset to the instant the verdict names; as {@link #delayDays} otherwise. */
  OptionalDouble detectionDays() {
    if (onset.isEmpty() || months.stream().noneMatch(ScoredMonth::positive)) {
      return OptionalDouble.empty();
    }
    for (ScoredMonth month : months) {
      if (month.wasteFlag() && month.faultActive()) {
        Instant detected = month.verdict().judgement().detectedAt().orElse(end(month));
        return OptionalDouble.of(Duration.between(onset.get(), detected).toHours() / 24.0);
      }
    }
    return OptionalDouble.of(Double.POSITIVE_INFINITY);
  }

  private Instant end(ScoredMonth month) {
    // All fleets lie in North America: the zone moves the month's end by hours, not by days.
    return month
        .truth()
        .month()
        .plusMonths(1)
        .atDay(1)
        .atStartOfDay(java.time.ZoneId.of("America/Chicago"))
        .toInstant();
  }
}
