package towerledger.report.content;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import towerledger.drawing.FigureText;
import towerledger.drawing.Medium;
import towerledger.drawing.SystemMonths;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.wording.MoneyText;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** The systems of a report, a table a site, dearest waste first. */
record ReportTables(
    ReportOrder order, ReportWriter.Gathered gathered, Words words, FigureText text) {

  List<MonthlyReport.SiteTable> sites() {
    Map<String, List<LedgerEntry>> bySite = new LinkedHashMap<>();
    gathered.rows().stream()
        .sorted(Comparator.comparing(row -> row.of().siteName()))
        .forEach(row -> bySite.computeIfAbsent(row.of().site(), s -> new ArrayList<>()).add(row));
    String unit = text.volumeUnitName();
    List<String> headings =
        List.of(
            words.of("review.system"),
            words.of("system.makeup.in", unit),
            words.of("system.expected.in", unit),
            words.of("review.unaccounted", unit),
            words.of("report.table.wasted", unit),
            words.of("review.cost"),
            words.of("report.table.cycles"),
            words.of("report.table.evidence"));
    return bySite.values().stream()
        .map(
            rows ->
                new MonthlyReport.SiteTable(
                    rows.get(0).of().siteName(), headings, rows.stream().map(this::row).toList()))
        .toList();
  }

  private MonthlyReport.SystemRow row(LedgerEntry row) {
    LedgerWater water = row.water();
    boolean waste = row.verdict().waste();
    VerdictText verdict = new VerdictText(words, text);
    WaterText figures = new WaterText(words, text);
    return new MonthlyReport.SystemRow(
        row.of().systemName(),
        verdict.verdict(row),
        waste,
        trend(row),
        List.of(
            figures.bareVolume(water.makeup()),
            figures.bareExpected(water),
            figures.bareUnaccounted(water),
            waste
                ? figures.bareLoss(water)
                : water.makeup() == null ? words.of("figure.unknown") : words.of("money.none"),
            water.makeup() == null && !waste
                ? words.of("figure.unknown")
                : MoneyText.loss(row, text, words),
            cycles(water),
            row.evidence() == null ? words.of("figure.unknown") : row.evidence().name()));
  }

  private String cycles(LedgerWater water) {
    if (water.cycles() == null) {
      return words.of("figure.unknown");
    }
    String measured = text.cycles(water.cycles());
    return water.targetCycles() == null
        ? measured
        : words.of("report.table.cycles.of", measured, text.cycles(water.targetCycles()));
  }

  private String trend(LedgerEntry row) {
    SystemMonths months =
        new SystemMonths(
            gathered.trends().getOrDefault(row.of().systemId(), List.of()),
            order.month().minusMonths(ReportWriter.MONTHS - 1L),
            order.month(),
            text);
    long wasting =
        months.entries().stream().filter(e -> e.isPresent() && e.get().verdict().waste()).count();
    return months.sparkline(
        Medium.PAPER, words.of("review.trend.title", row.of().systemName(), wasting));
  }
}
