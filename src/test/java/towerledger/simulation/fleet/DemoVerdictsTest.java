package towerledger.simulation.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import towerledger.balance.MonthVerdict;
import towerledger.balance.Reconciler;
import towerledger.balance.ReconciliationPolicy;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WeatherHours;
import towerledger.simulation.demo.DemoBundle;
import towerledger.simulation.demo.DemoRun;
import towerledger.simulation.demo.DemoStories;
import towerledger.simulation.demo.DemoStories.Story;

/** The demo's stories are found from what was written down, and nobody else is accused. */
class DemoVerdictsTest {

  private static final YearMonth FIRST = YearMonth.of(2025, 5);
  private static final YearMonth LAST = YearMonth.of(2026, 10);

  private static final Map<String, List<MonthVerdict>> VERDICTS = new LinkedHashMap<>();

  @BeforeAll
  static void judge() {
    Reconciler reconciler = new Reconciler(ReconciliationPolicy.standard());
    Map<Object, WeatherHours> stations = new LinkedHashMap<>();
    for (DemoRun run : DemoBundle.simulate().runs()) {
      WeatherHours weather =
          stations.computeIfAbsent(
              run.water().operation().weather(),
              truth -> FleetWeather.recorded(run.water().operation().weather(), FleetPlan.FROM));
      SystemFacts facts =
          FactsOf.plant(
              run.water().spec(),
              told(run),
              run.observations(),
              weather,
              run.water().operation().hours().zone(),
              FleetPlan.FROM);
      VERDICTS.put(run.code(), reconciler.judge(facts, FIRST, LAST));
    }
    if (Boolean.getBoolean("towerledger.demo.print")) {
      VERDICTS.forEach(DemoVerdictsTest::print);
    }
  }

  @Test
  void everyStoryIsFlaggedWhileItLasts() {
    for (Story story : DemoStories.all().values()) {
      YearMonth last = YearMonth.from(story.to()).isAfter(LAST) ? LAST : YearMonth.from(story.to());

      List<YearMonth> flagged =
          verdicts(story.system()).stream()
              .filter(v -> v.judgement().flagged())
              .map(MonthVerdict::month)
              .filter(m -> !m.isBefore(YearMonth.from(story.from())) && !m.isAfter(last))
              .toList();

      assertThat(flagged).as("flagged months of %s", story.system()).isNotEmpty();
    }
  }

  @Test
  void nobodyIsFlaggedWithoutAStory() {
    Map<String, List<String>> accused = new LinkedHashMap<>();
    VERDICTS.forEach(
        (system, verdicts) -> {
          Story story = DemoStories.all().get(system);
          List<String> wrong =
              verdicts.stream()
                  .filter(v -> v.judgement().flagged())
                  .filter(v -> story == null || v.month().isBefore(YearMonth.from(story.from())))
                  .map(v -> v.month() + " " + v.judgement().likeliest().cause().code())
                  .toList();
          if (!wrong.isEmpty()) {
            accused.put(system, wrong);
          }
        });

    assertThat(accused).isEmpty();
  }

  @Test
  void theCauseOfEveryStoryIsAmongThoseNamed() {
    for (Story story : DemoStories.all().values()) {
      boolean named =
          verdicts(story.system()).stream()
              .filter(v -> v.judgement().flagged())
              .anyMatch(
                  v ->
                      v.judgement().causeSet().stream()
                          .anyMatch(c -> c.code().equals(story.cause().code())));

      assertThat(named).as("%s of %s", story.cause().code(), story.system()).isTrue();
    }
  }

  @Test
  void farMoreThanASoundSystemDrawsIsToldInTimes() {
    List<String> evidence =
        VERDICTS.values().stream()
            .flatMap(List::stream)
            .flatMap(v -> v.judgement().opinions().stream())
            .flatMap(opinion -> opinion.evidenceFor().stream())
            .filter(said -> said.startsWith("makeup "))
            .distinct()
            .toList();

    // the demo's stuck fill valve runs over at some twenty times the tower's use
    assertThat(evidence).anyMatch(said -> said.matches("makeup \\d\\d times what .*"));
    assertThat(evidence).noneMatch(said -> said.matches("makeup \\d{4,} % more .*"));
  }

  private static List<MonthVerdict> verdicts(String system) {
    return VERDICTS.getOrDefault(system, List.of());
  }

  private static Told told(DemoRun run) {
    List<Told.BleedFactor> factors =
        new java.util.ArrayList<>(List.of(new Told.BleedFactor(FleetPlan.FROM, 1)));
    run.water()
        .operation()
        .nuisances()
        .setpointChanges()
        .forEach(
            change ->
                factors.add(
                    new Told.BleedFactor(
                        run.water()
                            .operation()
                            .hours()
                            .grid()
                            .at(change.hour())
                            .atZone(run.water().operation().hours().zone())
                            .toLocalDate(),
                        change.factor())));
    return new Told(true, true, true, true, true, true, true, factors, run.observations().visits());
  }

  private static void print(String system, List<MonthVerdict> verdicts) {
    System.out.println(
        system
            + verdicts.stream()
                .map(
                    v ->
                        "\n  %s %s M %s exp %s una %s  E %s C %s %s%s %s %.2f %s"
                            .formatted(
                                v.month(),
                                v.grade(),
                                v.water()
                                    .makeup()
                                    .map(m -> kgal(m.value().usGallons()))
                                    .orElse("-"),
                                v.water()
                                    .expectedMakeup()
                                    .map(m -> kgal(m.value().usGallons()))
                                    .orElse("-"),
                                v.water()
                                    .unaccounted()
                                    .map(
                                        u ->
                                            kgal(u.value().usGallons())
                                                + " ["
                                                + kgal(u.low().usGallons())
                                                + ","
                                                + kgal(u.high().usGallons())
                                                + "]")
                                    .orElse("-"),
                                v.water()
                                    .evaporation()
                                    .map(m -> kgal(m.value().usGallons()))
                                    .orElse("-"),
                                v.water().cycles().isPresent()
                                    ? "%.2f".formatted(v.water().cycles().getAsDouble())
                                    : "-",
                                v.judgement().flagged() ? "FLAG" : "",
                                v.judgement().waste() ? " WASTE" : "",
                                v.judgement().likeliest().cause().code(),
                                v.judgement().likeliest().probability(),
                                v.judgement().causeSet().stream()
                                    .map(c -> c.code())
                                    .collect(Collectors.joining(";"))))
                .collect(Collectors.joining()));
  }

  private static String kgal(double gallons) {
    return "%.1f".formatted(gallons / 1000);
  }
}
