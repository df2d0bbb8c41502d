package towerledger.report.content;

import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import towerledger.drawing.BarSheet;
import towerledger.drawing.Chart;
import towerledger.drawing.FigureText;
import towerledger.drawing.Layer;
import towerledger.drawing.Medium;
import towerledger.drawing.Series;
import towerledger.drawing.SystemMonths;
import towerledger.drawing.Tone;
import towerledger.drawing.WaterBar;
import towerledger.drawing.WaterPart;
import towerledger.ledger.Doubt;
import towerledger.ledger.LedgerEntry;
import towerledger.quantity.Volume;
import towerledger.wording.Words;

/** The drawings of a report: one picture of where the water went, and thirteen months of sums. */
record ReportDrawings(
    ReportOrder order, ReportWriter.Gathered gathered, Words words, FigureText text) {

  /** More bars than this are no longer one picture; the rest stands in the tables. */
  private static final int MOST_BARS = 12;

  MonthlyReport.Picture picture() {
    List<LedgerEntry> drawable =
        gathered.rows().stream()
            .filter(row -> SystemMonths.bar(row.water()).reach().litres() > 0)
            .toList();
    if (drawable.isEmpty()) {
      return new MonthlyReport.Picture("", words.of("bar.unknown"), "");
    }
    List<LedgerEntry> shown = drawable.subList(0, Math.min(MOST_BARS, drawable.size()));
    List<BarSheet.Row> rows = new ArrayList<>();
    List<String> said = new ArrayList<>();
    for (LedgerEntry row : shown) {
      WaterBar bar = SystemMonths.bar(row.water());
      String figure = figure(row);
      rows.add(new BarSheet.Row(row.of().systemName(), figure, bar));
      String parts = parts(bar);
      said.add(
          words.of(
              parts.isEmpty()
                  ? "report.picture.unknown"
                  : row.water().makeup() == null
                      ? "report.picture.unmetered"
                      : "report.picture.row",
              row.of().systemName(),
              figure,
              parts));
    }
    Map<WaterPart, String> names = new EnumMap<>(WaterPart.class);
    for (WaterPart part : WaterPart.values()) {
      names.put(part, words.of(part.messageKey()));
    }
    String title = words.of("report.picture.title", text.month(order.month()));
    String description = String.join(" ", said);
    String svg =
        BarSheet.draw(
            rows,
            names,
            words.of("water.meter-stroke"),
            words.of("water.whisker"),
            title,
            description);
    int left = drawable.size() - shown.size();
    return new MonthlyReport.Picture(
        svg,
        title + ". " + description,
        left == 0 ? "" : words.of("report.picture.left", shown.size(), left));
  }

  private String figure(LedgerEntry row) {
    Double makeup = row.water().makeup();
    return makeup == null ? words.of("review.not-metered") : text.volume(Volume.ofLitres(makeup));
  }

  private String parts(WaterBar bar) {
    List<String> said = new ArrayList<>();
    for (WaterPart part : WaterPart.values()) {
      bar.part(part)
          .filter(volume -> Math.abs(volume.litres()) >= 0.5)
          .ifPresent(
              volume ->
                  said.add(
                      words.of(
                          "bar.part",
                          words.of(part.messageKey()),
                          text.part(volume, bar.reach()))));
    }
    return String.join("; ", said);
  }

  List<MonthlyReport.ChartPlate> charts() {
    YearMonth first = order.month().minusMonths(ReportWriter.MONTHS - 1L);
    List<Optional<Totals>> months = new ArrayList<>();
    for (YearMonth month = first; !month.isAfter(order.month()); month = month.plusMonths(1)) {
      YearMonth wanted = month;
      List<LedgerEntry> rows =
          gathered.trends().values().stream()
              .flatMap(List::stream)
              .filter(row -> row.month().equals(wanted))
              .sorted(Comparator.comparing(row -> row.of().system()))
              .toList();
      Totals totals = new Totals(rows, order.customer().currency());
      months.add(totals.metered() == 0 ? Optional.empty() : Optional.of(totals));
    }
    if (months.stream().filter(Optional::isPresent).count() < 2) {
      return List.of();
    }
    List<String> labels = new SystemMonths(List.of(), first, order.month(), text).labels();
    boolean lost = months.stream().anyMatch(m -> m.isPresent() && m.get().wasting() > 0);
    return lost
        ? List.of(makeup(months, labels), money(months, labels))
        : List.of(makeup(months, labels));
  }

  private MonthlyReport.ChartPlate makeup(List<Optional<Totals>> months, List<String> labels) {
    double unit = text.axisUnit().litres();
    Chart chart =
        Chart.over(labels)
            .ticks(text::tick)
            .with(
                new Layer.Band(
                    series(months, t -> (t.soundLitres() - t.soundHalfWidthLitres()) / unit),
                    series(months, t -> (t.soundLitres() + t.soundHalfWidthLitres()) / unit),
                    Tone.EVAPORATION))
            .with(new Layer.Line(series(months, t -> t.makeupLitres() / unit), Tone.INK, true));
    String title = words.of("report.chart.makeup");
    String summary = words.of("report.chart.makeup.sum");
    return new MonthlyReport.ChartPlate(
        title,
        FigureText.unitName(text.axisUnit()),
        chart.draw(Medium.PAPER, title, summary),
        summary);
  }

  private MonthlyReport.ChartPlate money(List<Optional<Totals>> months, List<String> labels) {
    Chart chart =
        Chart.over(labels)
            .ticks(text::tick)
            .with(new Layer.Bars(series(months, ReportDrawings::cost), WaterPart.EXCESS_LOSS))
            .with(
                new Layer.Whiskers(
                    series(months, t -> whisker(t, -t.costDoubt().below())),
                    Series.constant(Double.NaN, months.size()),
                    series(months, t -> whisker(t, t.costDoubt().above()))));
    String title = words.of("plate.money");
    long lost = months.stream().filter(m -> m.isPresent() && m.get().wasting() > 0).count();
    String summary = words.of("report.chart.money.sum", lost);
    return new MonthlyReport.ChartPlate(
        title,
        order.customer().currency().getCurrencyCode(),
        chart.draw(Medium.PAPER, title, summary),
        summary);
  }

  private static double cost(Totals totals) {
    Double amount = totals.costAmount();
    return amount == null ? Double.NaN : amount;
  }

  private static double whisker(Totals totals, double side) {
    return totals.costDoubt().equals(Doubt.NONE) ? Double.NaN : Math.max(0, cost(totals) + side);
  }

  private static Series series(List<Optional<Totals>> months, ToDoubleFunction<Totals> figure) {
    return Series.of(
        months.stream()
            .map(
                month ->
                    month.isPresent()
                        ? OptionalDouble.of(figure.applyAsDouble(month.get()))
                        : OptionalDouble.empty())
            .toList());
  }
}
