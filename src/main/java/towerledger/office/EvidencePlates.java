package towerledger.office;

import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.SupplyPressure;
import towerledger.drawing.Chart;
import towerledger.drawing.FigureText;
import towerledger.drawing.HeatMap;
import towerledger.drawing.Layer;
import towerledger.drawing.Medium;
import towerledger.drawing.Series;
import towerledger.drawing.Swatch;
import towerledger.drawing.Tone;
import towerledger.page.FigureTable;
import towerledger.page.Plate;
import towerledger.quantity.Pressure;
import towerledger.quantity.Volume;
import towerledger.site.SettingName;
import towerledger.site.Settings;
import towerledger.wording.Words;

/** Charts of what was measured, beside those of what the ledger made of it. */
final class EvidencePlates {

  private static final int HOURS = 24;

  private EvidencePlates() {}

  /**
   * Pressure at the fill valve (else of the supply) by month against the valve's limit, and the
   * makeup hour by day of one month; each only where there are readings.
   */
  static List<Plate> of(SystemFacts facts, List<YearMonth> months, Words words, FigureText text) {
    ZoneId zone = facts.zone();
    List<Plate> plates = new ArrayList<>();
    pressure(facts.pressures(), facts.standing().settings(), zone, months, words, text)
        .ifPresent(plates::add);
    hours(facts.hours(), zone, facts.month(), words, text).ifPresent(plates::add);
    return plates;
  }

  private static Optional<Plate> pressure(
      List<SupplyPressure> read,
      Settings settings,
      ZoneId zone,
      List<YearMonth> months,
      Words words,
      FigureText text) {
    if (read.isEmpty()) {
      return Optional.empty();
    }
    double[] highest = new double[months.size()];
    Arrays.fill(highest, Double.NaN);
    for (SupplyPressure reading : read) {
      int slot = months.indexOf(YearMonth.from(reading.takenAt().atZone(zone)));
      OptionalDouble pascals =
          reading.valveInletPascals().isPresent()
              ? reading.valveInletPascals()
              : reading.supplyPascals();
      if (slot >= 0 && pascals.isPresent()) {
        double value = text.pressureNumber(Pressure.ofPascals(pascals.getAsDouble()));
        highest[slot] = Double.isNaN(highest[slot]) ? value : Math.max(highest[slot], value);
      }
    }
    double[] limits =
        months.stream()
            .mapToDouble(
                m ->
                    settings
                        .findNumber(SettingName.FILL_VALVE_MAX_PRESSURE, m.atEndOfMonth())
                        .stream()
                        .map(kpa -> text.pressureNumber(Pressure.ofKilopascals(kpa)))
                        .findFirst()
                        .orElse(Double.NaN))
            .toArray();
    long above =
        IntStream.range(0, months.size()).filter(slot -> highest[slot] > limits[slot]).count();
    String title = words.of("plate.pressure");
    String sum =
        Arrays.stream(limits).allMatch(Double::isNaN)
            ? words.of("plate.pressure.sum.no-limit")
            : words.of("plate.pressure.sum", above);
    List<List<String>> rows = new ArrayList<>();
    for (int slot = 0; slot < months.size(); slot++) {
      rows.add(
          List.of(
              text.month(months.get(slot)),
              number(highest[slot], words, text),
              number(limits[slot], words, text)));
    }
    FigureTable table =
        new FigureTable(
            List.of(words.of("figure.month"), words.of("plate.measured"), words.of("plate.limit")),
            rows);
    Chart chart =
        Chart.over(labels(months, text))
            .fromLeast()
            .ticks(text::tick)
            .hints(rows.stream().map(row -> String.join("\n", row)).toList())
            .with(new Layer.Limit(Series.of(limits), Tone.LOSS))
            .with(new Layer.Line(Series.of(highest), Tone.INK, true));
    return Optional.of(
        new Plate(
            "pressure",
            title,
            text.pressureUnitName(),
            chart.draw(Medium.PAGE, title, sum),
            List.of(
                new Plate.Legend(
                    Swatch.line(Tone.INK, false, Medium.PAGE), words.of("plate.pressure.highest")),
                new Plate.Legend(
                    Swatch.line(Tone.LOSS, true, Medium.PAGE), words.of("plate.limit"))),
            sum,
            table,
            null));
  }

  private static List<String> labels(List<YearMonth> months, FigureText text) {
    return months.stream()
        .map(
            month ->
                month.getMonthValue() == 1
                    ? "’%02d".formatted(month.getYear() % 100)
                    : month.getMonthValue() % 3 == 1 ? text.monthLetter(month) : "")
        .toList();
  }

  private static String number(double value, Words words, FigureText text) {
    return Double.isNaN(value) ? words.of("figure.unknown") : text.decimals(value, 0);
  }

  private static Optional<Plate> hours(
      Collection<IntervalVolumes> logged,
      ZoneId zone,
      YearMonth month,
      Words words,
      FigureText text) {
    double[][] litres = new double[month.lengthOfMonth()][HOURS];
    for (double[] day : litres) {
      Arrays.fill(day, Double.NaN);
    }
    for (IntervalVolumes volumes : logged) {
      for (int i = 0; i < volumes.size(); i++) {
        ZonedDateTime start = Instant.ofEpochSecond(volumes.startEpochSecond(i)).atZone(zone);
        double[] day = litres[start.getDayOfMonth() - 1];
        day[start.getHour()] =
            (Double.isNaN(day[start.getHour()]) ? 0 : day[start.getHour()]) + volumes.litres(i);
      }
    }
    return logged.isEmpty() ? Optional.empty() : Optional.of(heat(month, litres, words, text));
  }

  private static Plate heat(YearMonth month, double[][] litres, Words words, FigureText text) {
    List<Series> days = new ArrayList<>();
    List<String> labels = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    double least = Double.POSITIVE_INFINITY;
    for (int day = 0; day < litres.length; day++) {
      days.add(Series.of(litres[day]));
      labels.add(day % 7 == 0 ? String.valueOf(day + 1) : "");
      double sum = Arrays.stream(litres[day]).filter(Double::isFinite).sum();
      double low = Arrays.stream(litres[day]).filter(Double::isFinite).min().orElse(Double.NaN);
      least = Double.isNaN(low) ? least : Math.min(least, low);
      LocalDate date = month.atDay(day + 1);
      rows.add(
          List.of(
              text.day(date),
              Double.isNaN(low) ? words.of("figure.unknown") : text.volume(Volume.ofLitres(sum)),
              Double.isNaN(low) ? words.of("figure.unknown") : text.volume(Volume.ofLitres(low))));
    }
    String title = words.of("plate.hours", text.month(month));
    String sum = words.of("plate.hours.sum", text.volume(Volume.ofLitres(least)));
    return new Plate(
        "hours",
        title,
        words.of("plate.hours.unit"),
        HeatMap.draw(
            Medium.PAGE, days, labels, value -> text.volume(Volume.ofLitres(value)), title, sum),
        depths(
            Arrays.stream(litres)
                .flatMapToDouble(Arrays::stream)
                .filter(Double::isFinite)
                .max()
                .orElse(0),
            words,
            text),
        sum,
        new FigureTable(
            List.of(
                words.of("plate.hours.day"),
                words.of("plate.makeup"),
                words.of("plate.hours.least")),
            rows),
        null);
  }

  private static List<Plate.Legend> depths(double most, Words words, FigureText text) {
    return HeatMap.depths().stream()
        .map(
            depth ->
                new Plate.Legend(
                    Swatch.band(depth.tone(), Medium.PAGE),
                    depth.fromShare() == 0
                        ? words.of("plate.hours.some")
                        : words.of(
                            "plate.hours.from",
                            text.volume(Volume.ofLitres(most * depth.fromShare())))))
        .toList();
  }
}
