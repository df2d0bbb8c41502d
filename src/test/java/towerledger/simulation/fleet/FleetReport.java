package towerledger.simulation.fleet;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import towerledger.simulation.PlantedCause;

/** A fleet's figures as a page. */
final class FleetReport {

  private final StringBuilder page = new StringBuilder();

  FleetReport title(String text) {
    page.append("# ").append(text).append("\n\n");
    return this;
  }

  FleetReport fleet(String name, List<ScoredPlant> plants) {
    long faulty = plants.stream().filter(p -> p.fault().isPresent()).count();
    long positive =
        plants.stream().flatMap(p -> p.months().stream()).filter(ScoredMonth::positive).count();
    page.append("## ").append(name).append("\n\n");
    page.append(
        "%d plants, %d with a planted fault, %d positive of %d months.%n%n"
            .formatted(plants.size(), faulty, positive, plants.size() * 18));
    page.append("| figure | wanted | ledger | rule of thumb | last year's month |\n");
    page.append("|---|---|---|---|---|\n");
    compared("precision", "≥ 0.85", plants, (p, f) -> FleetFigures.precision(p, f), false);
    compared(
        "precision, losses of 1 to 5 % left out",
        "", plants, (p, f) -> FleetFigures.precisionOfClear(p, f), false);
    compared("recall", "≥ 0.78", plants, (p, f) -> FleetFigures.recall(p, f), false);
    compared(
        "false-flag episodes a sound tower-year",
        "≤ 0.10",
        plants,
        (p, f) -> FleetFigures.falseEpisodes(p, f),
        true);
    line(plants, "recall A, 10–20 %", "≥ 0.70", p -> FleetFigures.recall(p, "A", 0.1, 0.2));
    line(plants, "recall B, 10–20 %", "≥ 0.45", p -> FleetFigures.recall(p, "B", 0.1, 0.2));
    line(plants, "recall C, 10–20 %", "", p -> FleetFigures.recall(p, "C", 0.1, 0.2));
    line(plants, "recall D, 10–20 %", "", p -> FleetFigures.recall(p, "D", 0.1, 0.2));
    line(plants, "recall A, 20–40 %", "≥ 0.85", p -> FleetFigures.recall(p, "A", 0.2, 0.4));
    line(plants, "recall B, 20–40 %", "≥ 0.75", p -> FleetFigures.recall(p, "B", 0.2, 0.4));
    line(plants, "recall C, 20–40 %", "", p -> FleetFigures.recall(p, "C", 0.2, 0.4));
    line(plants, "recall D, 20–40 %", "≥ 0.55", p -> FleetFigures.recall(p, "D", 0.2, 0.4));
    line(plants, "recall > 40 %", "≥ 0.90", p -> FleetFigures.recall(p, "ABCD", 0.4, 9));
    line(plants, "recall 5–10 %", "", p -> FleetFigures.recall(p, "ABCD", 0.05, 0.1));
    line(plants, "median delay, days", "≤ 30", FleetFigures::medianDelay);
    line(plants, "median delay to detection, logged, days", "≤ 10", FleetFigures::medianDetection);
    line(
        plants,
        "median error of the loss, positive months",
        "≤ 0.15",
        p -> FleetFigures.medianLossError(p, false));
    line(
        plants,
        "median error of the loss, flagged positive months",
        "≤ 0.15",
        p -> FleetFigures.medianLossError(p, true));
    line(plants, "coverage, all months", "0.90–0.98", p -> FleetFigures.coverage(p, false));
    line(plants, "coverage, positive months", "≥ 0.88", p -> FleetFigures.coverage(p, true));
    line(plants, "evaporation error A", "≤ 0.03", p -> FleetFigures.evaporationError(p, 'A'));
    line(plants, "evaporation error B", "≤ 0.05", p -> FleetFigures.evaporationError(p, 'B'));
    line(plants, "evaporation error C", "", p -> FleetFigures.evaporationError(p, 'C'));
    line(plants, "evaporation error D", "≤ 0.09", p -> FleetFigures.evaporationError(p, 'D'));
    Predicate<ScoredPlant> all = p -> true;
    line(
        plants,
        "likeliest cause right",
        "≥ 0.55",
        p -> FleetFigures.naming(p, all, (m, f) -> m.namesFirst(f) ? 1 : 0));
    line(
        plants,
        "among the first two",
        "≥ 0.70",
        p -> FleetFigures.naming(p, all, (m, f) -> m.namesInTwo(f) ? 1 : 0));
    line(
        plants,
        "cause set holds it",
        "≥ 0.85",
        p -> FleetFigures.naming(p, all, (m, f) -> m.setHolds(f) ? 1 : 0));
    line(
        plants,
        "names in the set",
        "≤ 2.5",
        p -> FleetFigures.naming(p, all, (m, f) -> m.causeSet().size()));
    line(
        plants,
        "names in the set, bleed metered",
        "fewer",
        p -> FleetFigures.naming(p, ScoredPlant::bleedMeter, (m, f) -> m.causeSet().size()));
    page.append('\n');
    return this;
  }

  private interface Compared {
    double of(List<ScoredPlant> plants, Predicate<ScoredMonth> flag);
  }

  private void compared(
      String name, String wanted, List<ScoredPlant> plants, Compared figure, boolean anyFlag) {
    Predicate<ScoredMonth> ours = anyFlag ? ScoredMonth::flagged : ScoredMonth::wasteFlag;
    page.append(
        "| %s | %s | %s | %s | %s |%n"
            .formatted(
                name,
                wanted,
                Figure.of(plants, p -> figure.of(p, ours)).text(),
                Figure.of(plants, p -> figure.of(p, ScoredMonth::thumbFlag)).text(),
                Figure.of(plants, p -> figure.of(p, ScoredMonth::yearFlag)).text()));
  }

  private void line(
      List<ScoredPlant> plants,
      String name,
      String wanted,
      ToDoubleFunction<List<ScoredPlant>> figure) {
    page.append("| %s | %s | %s | | |%n".formatted(name, wanted, Figure.of(plants, figure).text()));
  }

  /** Where verdicts fail: by cause, and by bleed control. */
  FleetReport byCause(List<ScoredPlant> plants) {
    page.append("## By planted cause\n\n");
    page.append(
        "| cause | plants | positive months | recall | flagged while acting | first right | "
            + "in two | in set | set size |\n|---|---|---|---|---|---|---|---|---|\n");
    Map<String, List<ScoredPlant>> groups = new TreeMap<>();
    for (PlantedCause cause : PlantedCause.values()) {
      List<ScoredPlant> group =
          plants.stream()
              .filter(p -> p.fault().map(f -> f.cause() == cause).orElse(false))
              .toList();
      if (!group.isEmpty()) {
        groups.put(cause.code(), group);
      }
    }
    groups.forEach(this::row);
    page.append('\n');
    return this;
  }

  private void row(String name, List<ScoredPlant> group) {
    Predicate<ScoredPlant> all = p -> true;
    long positive =
        group.stream().flatMap(p -> p.months().stream()).filter(ScoredMonth::positive).count();
    long active =
        group.stream().flatMap(p -> p.months().stream()).filter(ScoredMonth::faultActive).count();
    long flagged =
        group.stream()
            .flatMap(p -> p.months().stream())
            .filter(m -> m.faultActive() && m.flagged())
            .count();
    page.append(
        String.format(
            Locale.ROOT,
            "| %s | %d | %d | %.2f | %.2f | %.2f | %.2f | %.2f | %.1f |%n",
            name,
            group.size(),
            positive,
            FleetFigures.recall(group, ScoredMonth::wasteFlag),
            active == 0 ? Double.NaN : (double) flagged / active,
            FleetFigures.naming(group, all, (m, f) -> m.namesFirst(f) ? 1 : 0),
            FleetFigures.naming(group, all, (m, f) -> m.namesInTwo(f) ? 1 : 0),
            FleetFigures.naming(group, all, (m, f) -> m.setHolds(f) ? 1 : 0),
            FleetFigures.naming(group, all, (m, f) -> m.causeSet().size())));
  }

  /** Sound plants that were flagged, for whoever looks into why. */
  FleetReport falseFlags(List<ScoredPlant> plants) {
    page.append("## Sound plants flagged\n\n");
    for (ScoredPlant plant : plants) {
      if (plant.fault().isEmpty() && plant.episodes(ScoredMonth::flagged) > 0) {
        page.append(
            "- %s, grade %s, %s:".formatted(plant.plant(), plant.grade(), plant.bleedMode()));
        for (ScoredMonth month : plant.months()) {
          if (month.flagged()) {
            page.append(
                " %s %s"
                    .formatted(
                        month.truth().month(),
                        month.verdict().judgement().likeliest().cause().code()));
          }
        }
        page.append('\n');
      }
    }
    page.append('\n');
    return this;
  }

  String text() {
    return page.toString();
  }
}
