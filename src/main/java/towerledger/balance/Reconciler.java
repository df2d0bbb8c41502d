package towerledger.balance;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;

/**
 * Reconciles the months of one system. Each month is judged on the facts known by its close, ten
 * days after its end; later facts never change an earlier month. The same facts and policy always
 * give the same verdicts, whatever the order in which they came.
 */
public final class Reconciler {

  /** Version of the model, recorded with every revision. */
  public static final String MODEL_VERSION = "0.1";

  /** How long after its end a month still takes facts in. */
  public static final Duration CLOSE_AFTER = Duration.ofDays(10);

  private final ReconciliationPolicy policy;

  public Reconciler(ReconciliationPolicy policy) {
    this.policy = policy;
  }

  /** The policy in force. */
  public ReconciliationPolicy policy() {
    return policy;
  }

  /**
   * Verdicts of consecutive months. Facts from before the first month are used: they calibrate the
   * system and may hold the onset of a fault; give two years of them where they exist.
   *
   * @param facts what is known of the system
   * @param first first month wanted
   * @param last last month wanted, not before the first
   * @return one verdict per month, in order
   */
  public List<MonthVerdict> judge(SystemFacts facts, YearMonth first, YearMonth last) {
    if (last.isBefore(first)) {
      throw new IllegalArgumentException(
          "last month %s is before the first, %s".formatted(last, first));
    }
    List<MonthVerdict> verdicts = new ArrayList<>();
    for (YearMonth month = first; !month.isAfter(last); month = month.plusMonths(1)) {
      verdicts.add(judgeOne(facts, month));
    }
    return verdicts;
  }

  private MonthVerdict judgeOne(SystemFacts facts, YearMonth month) {
    Span span = CalendarMonth.of(month, facts.zone()).span();
    Instant close = span.endExclusive().plus(CLOSE_AFTER);
    Optional<VolumeEstimate> makeup = makeup(facts, span, close);
    WaterFigures water =
        new WaterFigures(
            makeup,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty());
    Judgement judgement =
        new Judgement(
            false,
            false,
            List.of(new CauseOpinion(Cause.MISSING_DATA, 1, List.of(), List.of())),
            List.of(Cause.MISSING_DATA),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
    List<String> whatToAdd =
        makeup.isPresent()
            ? List.of()
            : List.of("makeup meter readings that enclose the whole month");
    return new MonthVerdict(
        month, EvidenceGrade.D, water, judgement, List.of(), List.of(), whatToAdd, List.of());
  }

  private static Optional<VolumeEstimate> makeup(SystemFacts facts, Span month, Instant close) {
    double litres = 0;
    double coveredHours = 0;
    for (MeterFacts meter : facts.meters()) {
      if (meter.role() != MeterFacts.Role.MAKEUP) {
        continue;
      }
      for (RegisterVolume volume : meter.registers()) {
        if (volume.span().overlaps(month) && !volume.span().endExclusive().isAfter(close)) {
          double hours = overlapHours(volume.span(), month);
          litres += volume.litres() * hours / volume.span().hours();
          coveredHours += hours;
        }
      }
    }
    if (coveredHours < 0.999 * month.hours()) {
      return Optional.empty();
    }
    Volume volume = Volume.ofLitres(litres);
    return Optional.of(new VolumeEstimate(volume, volume.times(0.97), volume.times(1.03)));
  }

  private static double overlapHours(Span a, Span b) {
    Instant start =
        a.startInclusive().isAfter(b.startInclusive()) ? a.startInclusive() : b.startInclusive();
    Instant end = a.endExclusive().isBefore(b.endExclusive()) ? a.endExclusive() : b.endExclusive();
    return Math.max(0, (end.getEpochSecond() - start.getEpochSecond()) / 3600.0);
  }
}
