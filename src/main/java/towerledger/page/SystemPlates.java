package towerledger.page;

import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import towerledger.drawing.Chart;
import towerledger.drawing.FigureText;
import towerledger.drawing.Medium;
import towerledger.drawing.Series;
import towerledger.drawing.Swatch;
import towerledger.drawing.SystemMonths;
import towerledger.drawing.Tone;
import towerledger.drawing.WaterPart;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.quantity.Volume;
import towerledger.wording.MoneyText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** The plates of one system over its months: the same on the office's and the customer's pages. */
public final class SystemPlates {

  private final SystemMonths months;
  private final Words words;
  private final FigureText text;
  private final WaterText figures;
  private final String currency;

  /**
   * Plates over some months.
   *
   * @param currency ISO code of the system's money
   */
  public SystemPlates(SystemMonths months, Words words, FigureText text, String currency) {
    this.months = months;
    this.words = words;
    this.text = text;
    this.figures = new WaterText(words, text);
    this.currency = currency;
  }

  private String unit() {
    return FigureText.unitName(text.axisUnit());
  }

  /** Where the water went by month. */
  public Plate whereItWent() {
    List<WaterPart> shown = new ArrayList<>();
    for (WaterPart part : WaterPart.values()) {
      Series series = months.volumes(water -> SystemMonths.litres(water, part));
      if (hasAny(series)) {
        shown.add(part);
      }
    }
    List<Plate.Legend> legend = new ArrayList<>();
    List<String> headings = new ArrayList<>(List.of(words.of("figure.month")));
    shown.forEach(
        part -> {
          legend.add(new Plate.Legend(Swatch.of(part, Medium.PAGE), words.of(part.messageKey())));
          headings.add(words.of(part.messageKey()));
        });
    headings.add(words.of("plate.makeup"));
    legend.add(new Plate.Legend(Swatch.level(Medium.PAGE), words.of("water.meter-stroke")));
    return plate(
        "where",
        unit(),
        months.whereItWent(),
        legend,
        words.of("plate.where.sum"),
        table(
            headings,
            entry -> {
              List<String> cells = new ArrayList<>();
              shown.forEach(
                  part -> cells.add(part(SystemMonths.litres(entry.water(), part), entry)));
              cells.add(figures.volume(entry.water().makeup()));
              return cells;
            }));
  }

  private String part(@Nullable Double litres, LedgerEntry entry) {
    return litres == null
        ? words.of("figure.unknown")
        : text.part(Volume.ofLitres(litres), SystemMonths.bar(entry.water()).reach());
  }

  /** Makeup against the band expected. */
  public Plate againstExpected() {
    long outside = rows().stream().filter(row -> isAbove(row.water())).count();
    return plate(
        "expected",
        unit(),
        months.againstExpected(),
        List.of(
            new Plate.Legend(Swatch.line(Tone.INK, false, Medium.PAGE), words.of("plate.makeup")),
            new Plate.Legend(
                Swatch.line(Tone.NEEDED_BLOWDOWN, false, Medium.PAGE),
                words.of("plate.expected.value")),
            new Plate.Legend(
                Swatch.band(Tone.EVAPORATION, Medium.PAGE), words.of("plate.interval"))),
        words.of("plate.expected.sum", outside, rows().size()),
        table(
            List.of(
                words.of("figure.month"),
                words.of("plate.makeup"),
                words.of("plate.expected.value")),
            entry ->
                List.of(figures.volume(entry.water().makeup()), figures.expected(entry.water()))));
  }

  private static boolean isAbove(LedgerWater water) {
    return water.makeup() != null
        && water.expectedHigh() != null
        && water.makeup() > water.expectedHigh();
  }

  /** Unaccounted water by month: the variance. */
  public Plate unaccounted() {
    return plate(
        "unaccounted",
        unit(),
        months.unaccounted(),
        List.of(
            new Plate.Legend(
                Swatch.whisker(Medium.PAGE),
                words.of("plate.with-interval", words.of("plate.unaccounted.value")))),
        words.of("plate.unaccounted.sum"),
        table(
            List.of(words.of("figure.month"), words.of("plate.unaccounted.value")),
            entry -> List.of(figures.unaccounted(entry.water()))));
  }

  /** Running total of the unaccounted water with the month in which the fault began. */
  public Plate running(Optional<YearMonth> onset) {
    String label =
        onset.map(month -> words.of("plate.running.onset", text.shortMonth(month))).orElse("");
    SystemMonths.Running sums = months.unaccountedSoFar();
    return plate(
        "running",
        unit(),
        months.runningUnaccounted(sums, onset, label),
        List.of(
            new Plate.Legend(
                Swatch.line(Tone.INK, false, Medium.PAGE), words.of("plate.running.value")),
            new Plate.Legend(Swatch.band(Tone.SET_ASIDE, Medium.PAGE), words.of("plate.interval"))),
        onset
            .map(month -> words.of("plate.running.sum.onset", text.month(month)))
            .orElse(words.of("plate.running.sum")),
        runningTable(sums, figures::estimate, words.of("plate.running.value")));
  }

  /** Cost of the waste by month. */
  public Plate money() {
    return plate(
        "money",
        currency,
        months.lossMoney(),
        PlateLegends.loss(words),
        words.of("plate.money.sum", rows().stream().filter(r -> r.verdict().waste()).count()),
        table(
            List.of(words.of("figure.month"), words.of("plate.money.value")),
            entry -> List.of(MoneyText.loss(entry, text, words))));
  }

  /** Running cost of the waste. */
  public Plate runningMoney() {
    SystemMonths.Running sums = months.lossSoFar();
    return plate(
        "money-running",
        currency,
        months.runningLossMoney(sums),
        PlateLegends.runningLoss(words),
        words.of("plate.money-running.sum"),
        runningTable(
            sums,
            (value, low, high) -> text.withInterval(value, low, high) + "\u00a0" + currency,
            words.of("plate.money-running.value")));
  }

  /** Cycles against the target. */
  public Plate cycles() {
    return plate(
        "cycles",
        words.of("plate.cycles.unit"),
        months.cycles(),
        List.of(
            new Plate.Legend(Swatch.line(Tone.INK, false, Medium.PAGE), words.of("plate.measured")),
            new Plate.Legend(
                Swatch.line(Tone.NEEDED_BLOWDOWN, true, Medium.PAGE), words.of("plate.target"))),
        words.of("plate.cycles.sum"),
        table(
            List.of(words.of("figure.month"), words.of("plate.measured"), words.of("plate.target")),
            entry ->
                List.of(cycles(entry.water().cycles()), cycles(entry.water().targetCycles()))));
  }

  /** What the signs over the months mean, the same on every chart; empty where nothing happened. */
  public List<Plate.Legend> signs() {
    return months.signs().stream()
        .map(
            sign ->
                new Plate.Legend(
                    Swatch.sign(sign, Medium.PAGE),
                    words.of("plate.sign." + sign.name().toLowerCase(Locale.ROOT))))
        .toList();
  }

  private Plate plate(
      String id,
      String unit,
      Chart chart,
      List<Plate.Legend> legend,
      String summary,
      FigureTable table) {
    String title = words.of("plate." + id);
    List<String> hints = table.rows().stream().map(row -> hint(table.headings(), row)).toList();
    return new Plate(
        id,
        title,
        unit,
        chart.hints(hints).draw(Medium.PAGE, title, summary),
        legend,
        summary,
        table,
        null);
  }

  private static String hint(List<String> headings, List<String> row) {
    StringBuilder hint = new StringBuilder(row.get(0));
    for (int cell = 1; cell < row.size(); cell++) {
      hint.append('\n').append(headings.get(cell)).append(": ").append(row.get(cell));
    }
    return hint.toString();
  }

  private List<LedgerEntry> rows() {
    return months.entries().stream().flatMap(Optional::stream).toList();
  }

  private FigureTable table(List<String> headings, Function<LedgerEntry, List<String>> cells) {
    List<List<String>> rows = new ArrayList<>();
    for (int slot = 0; slot < months.months().size(); slot++) {
      List<String> row = new ArrayList<>(List.of(text.month(months.months().get(slot))));
      Optional<LedgerEntry> entry = months.entries().get(slot);
      if (entry.isPresent()) {
        row.addAll(cells.apply(entry.get()));
      } else {
        while (row.size() < headings.size()) {
          row.add(words.of("figure.unknown"));
        }
      }
      rows.add(row);
    }
    return new FigureTable(headings, rows);
  }

  /** A running total month by month with its interval. */
  private FigureTable runningTable(SystemMonths.Running sums, IntervalText said, String heading) {
    List<List<String>> rows = new ArrayList<>();
    for (int slot = 0; slot < months.months().size(); slot++) {
      double total = sums.total().value(slot);
      rows.add(
          List.of(
              text.month(months.months().get(slot)),
              Double.isNaN(total)
                  ? words.of("figure.unknown")
                  : said.say(total, sums.low().value(slot), sums.high().value(slot))));
    }
    return new FigureTable(List.of(words.of("figure.month"), heading), rows);
  }

  /** Says a figure with its interval. */
  @FunctionalInterface
  private interface IntervalText {
    String say(double value, double low, double high);
  }

  private static boolean hasAny(Series series) {
    for (int slot = 0; slot < series.size(); slot++) {
      if (series.value(slot) != 0 && !Double.isNaN(series.value(slot))) {
        return true;
      }
    }
    return false;
  }

  private String cycles(@Nullable Double cycles) {
    return cycles == null ? words.of("figure.unknown") : text.cycles(cycles);
  }
}
