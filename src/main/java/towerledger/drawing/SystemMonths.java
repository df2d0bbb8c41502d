package towerledger.drawing;

import java.time.Month;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.quantity.Volume;

/**
 * Consecutive months of one system, ready to be drawn: the same small charts on a page, in the mail
 * and in print. Volumes stand in the reader's axis unit.
 */
public final class SystemMonths {

  private final List<YearMonth> months = new ArrayList<>();
  private final List<Optional<LedgerEntry>> entries = new ArrayList<>();
  private final FigureText text;
  private List<Layer.Mark> marks = List.of();

  /**
   * Lines the rows up.
   *
   * @param rows standing rows, in any order; a month without one is a gap
   * @param first first month drawn
   * @param last last month drawn, not before the first
   */
  public SystemMonths(List<LedgerEntry> rows, YearMonth first, YearMonth last, FigureText text) {
    this.text = text;
    Map<YearMonth, LedgerEntry> byMonth = new HashMap<>();
    rows.forEach(row -> byMonth.putIfAbsent(row.month(), row));
    for (YearMonth month = first; !month.isAfter(last); month = month.plusMonths(1)) {
      months.add(month);
      entries.add(Optional.ofNullable(byMonth.get(month)));
    }
  }

  /** Shows on every chart what happened; what lies outside the months is left out. */
  public SystemMonths marked(List<Layer.Mark> happened) {
    marks =
        happened.stream()
            .filter(mark -> mark.slot() > -0.5 && mark.slot() < months.size() - 0.5)
            .toList();
    return this;
  }

  /** Which sorts of marks there are. */
  public Set<Layer.Sign> signs() {
    Set<Layer.Sign> signs = EnumSet.noneOf(Layer.Sign.class);
    marks.forEach(mark -> signs.add(mark.sign()));
    return signs;
  }

  public List<YearMonth> months() {
    return List.copyOf(months);
  }

  /** Row of each month, where there is one. */
  public List<Optional<LedgerEntry>> entries() {
    return List.copyOf(entries);
  }

  /** Place of a month on the axis; empty when it is not drawn. */
  public Optional<Integer> slot(YearMonth month) {
    int slot = months.indexOf(month);
    return slot < 0 ? Optional.empty() : Optional.of(slot);
  }

  /** First letters of the months; a January carries its year where there is room. */
  public List<String> labels() {
    boolean roomy = months.size() <= 14;
    return months.stream()
        .map(
            month ->
                month.getMonth() == Month.JANUARY
                    ? "’%02d".formatted(month.getYear() % 100)
                    : roomy || month.getMonthValue() % 3 == 1 ? text.monthLetter(month) : "")
        .toList();
  }

  /** A figure of the water in the axis unit. */
  public Series volumes(Function<LedgerWater, @Nullable Double> figure) {
    double litres = text.axisUnit().litres();
    return series(entry -> figure.apply(entry.water())).times(1 / litres);
  }

  /** Any figure of a row. */
  public Series series(Function<LedgerEntry, @Nullable Double> figure) {
    return Series.of(
        entries.stream()
            .map(
                entry -> {
                  Double value = entry.map(figure::apply).orElse(null);
                  return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
                })
            .toList());
  }

  private Chart chart() {
    return Chart.over(labels()).ticks(text::tick).with(new Layer.Marks(marks));
  }

  /** Where the water went: the parts stacked, with the meter's stroke across. */
  public Chart whereItWent() {
    Map<WaterPart, Series> parts = new EnumMap<>(WaterPart.class);
    for (WaterPart part : WaterPart.values()) {
      Series series = volumes(water -> litres(water, part));
      if (series.most() > 0 || series.least() < 0) {
        parts.put(part, series);
      }
    }
    return chart()
        .with(new Layer.Stack(parts))
        .with(new Layer.Strokes(volumes(LedgerWater::makeup)));
  }

  /** Metered makeup over the band expected of the system in sound state. */
  public Chart againstExpected() {
    return chart()
        .with(
            new Layer.Band(
                volumes(LedgerWater::expectedLow),
                volumes(LedgerWater::expectedHigh),
                Tone.EVAPORATION))
        .with(new Layer.Line(volumes(LedgerWater::expectedMakeup), Tone.NEEDED_BLOWDOWN, false))
        .with(new Layer.Line(volumes(LedgerWater::makeup), Tone.INK, true));
  }

  /** Unaccounted water month by month, with its interval. */
  public Chart unaccounted() {
    return chart()
        .with(
            new Layer.Whiskers(
                volumes(LedgerWater::unaccountedLow),
                volumes(LedgerWater::unaccounted),
                volumes(LedgerWater::unaccountedHigh)));
  }

  /**
   * A running total with its bounds; half-widths add up, since lasting errors do. A month of which
   * nothing is known adds nothing.
   */
  public record Running(Series total, Series low, Series high) {
    private Running times(double factor) {
      return new Running(total.times(factor), low.times(factor), high.times(factor));
    }
  }

  /** Running total of the unaccounted water, in litres. */
  public Running unaccountedSoFar() {
    return new Running(
        series(entry -> entry.water().unaccounted()).running(),
        series(entry -> entry.water().unaccountedLow()).running(),
        series(entry -> entry.water().unaccountedHigh()).running());
  }

  /** Running cost of the waste. */
  public Running lossSoFar() {
    return new Running(
        series(SystemMonths::lossAmount).running(),
        series(SystemMonths::lossLow).running(),
        series(SystemMonths::lossHigh).running());
  }

  /** Running total of the unaccounted water with the month in which a fault began. */
  public Chart runningUnaccounted(Running litres, Optional<YearMonth> onset, String onsetLabel) {
    Running sums = litres.times(1 / text.axisUnit().litres());
    Chart chart =
        chart()
            .with(new Layer.Band(sums.low(), sums.high(), Tone.SET_ASIDE))
            .with(new Layer.Line(sums.total(), Tone.INK, true));
    onset
        .flatMap(this::slot)
        .ifPresent(slot -> chart.with(new Layer.Moment(slot - 0.5, onsetLabel)));
    return chart;
  }

  /** Cost of the waste by month, with its interval. */
  public Chart lossMoney() {
    return chart()
        .with(new Layer.Bars(series(SystemMonths::lossAmount), WaterPart.EXCESS_LOSS))
        .with(
            new Layer.Whiskers(
                series(entry -> entry.verdict().waste() ? number(entry.money().lossLow()) : null),
                Series.constant(Double.NaN, months.size()),
                series(
                    entry -> entry.verdict().waste() ? number(entry.money().lossHigh()) : null)));
  }

  /** Running cost of the waste. */
  public Chart runningLossMoney(Running sums) {
    return chart()
        .height(96)
        .with(new Layer.Band(sums.low(), sums.high(), Tone.SET_ASIDE))
        .with(new Layer.Line(sums.total(), Tone.LOSS, true));
  }

  /** Cycles as measured against the target. */
  public Chart cycles() {
    return chart()
        .with(new Layer.Limit(series(e -> e.water().targetCycles()), Tone.NEEDED_BLOWDOWN))
        .with(new Layer.Line(series(e -> e.water().cycles()), Tone.INK, true));
  }

  /** Thirteen months in the width of a word. */
  public String sparkline(Medium medium, String description) {
    return Sparkline.draw(
        medium,
        volumes(LedgerWater::makeup),
        volumes(LedgerWater::expectedLow),
        volumes(LedgerWater::expectedHigh),
        series(entry -> entry.verdict().waste() ? 1.0 : 0.0),
        description);
  }

  /** Cost of a month's waste: zero for a sound month, null where it cannot be told. */
  public static @Nullable Double lossAmount(LedgerEntry entry) {
    if (entry.verdict().isMissing()) {
      return null;
    }
    return entry.verdict().waste() ? number(entry.money().lossAmount()) : Double.valueOf(0);
  }

  /** Lower bound of {@link #lossAmount}; the amount itself where no bound is known. */
  public static @Nullable Double lossLow(LedgerEntry entry) {
    return bound(entry, entry.money().lossLow());
  }

  /** Upper bound of {@link #lossAmount}; the amount itself where no bound is known. */
  public static @Nullable Double lossHigh(LedgerEntry entry) {
    return bound(entry, entry.money().lossHigh());
  }

  private static @Nullable Double bound(LedgerEntry entry, java.math.@Nullable BigDecimal bound) {
    return entry.verdict().waste() && bound != null ? number(bound) : lossAmount(entry);
  }

  private static @Nullable Double number(java.math.@Nullable BigDecimal amount) {
    return amount == null ? null : amount.doubleValue();
  }

  /** A part that stacks, in litres; null where the evidence does not support it. */
  public static @Nullable Double litres(LedgerWater water, WaterPart part) {
    return switch (part) {
      case EVAPORATION -> water.evaporation();
      case DRIFT -> water.drift();
      case NEEDED_BLOWDOWN -> water.neededBlowdown();
      case OTHER_USE -> water.otherUse();
      case STORAGE_CHANGE -> water.storageChange();
      case METER_CORRECTION -> water.meterCorrection();
      case EXCESS_LOSS -> water.excessLoss();
      case FRESH_LOSS -> water.freshLoss();
      case RESIDUAL -> water.residual();
    };
  }

  /** The water bar of one month. */
  public static WaterBar bar(LedgerWater water) {
    Map<WaterPart, Volume> parts = new EnumMap<>(WaterPart.class);
    for (WaterPart part : WaterPart.values()) {
      Double litres = litres(water, part);
      if (litres != null) {
        parts.put(part, Volume.ofLitres(litres));
      }
    }
    return new WaterBar(
        parts, Optional.ofNullable(water.makeup()).map(Volume::ofLitres), sound(water));
  }

  private static Optional<WaterBar.Interval> sound(LedgerWater water) {
    Double makeup = water.makeup();
    Double value = water.unaccounted();
    Double low = water.unaccountedLow();
    Double high = water.unaccountedHigh();
    if (makeup != null && value != null && low != null && high != null) {
      return Optional.of(interval(makeup - value, makeup - high, makeup - low));
    }
    Double expected = water.expectedMakeup();
    Double expectedLow = water.expectedLow();
    Double expectedHigh = water.expectedHigh();
    return expected == null || expectedLow == null || expectedHigh == null
        ? Optional.empty()
        : Optional.of(interval(expected, expectedLow, expectedHigh));
  }

  private static WaterBar.Interval interval(double value, double low, double high) {
    return new WaterBar.Interval(
        Volume.ofLitres(value), Volume.ofLitres(low), Volume.ofLitres(high));
  }
}
