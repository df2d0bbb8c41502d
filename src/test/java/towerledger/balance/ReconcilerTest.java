package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WaterSample;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;

/** Months of a made-up system reconciled. */
class ReconcilerTest {

  private static final YearMonth FIRST = YearMonth.of(2025, 1);
  private static final YearMonth LAST = YearMonth.of(2026, 5);

  private static final Reconciler RECONCILER = new Reconciler(ReconciliationPolicy.standard());

  @Test
  void soundSystemIsNotFlaggedAndItsWaterIsExplained() {
    MadeUpSystem system = new MadeUpSystem().observed();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    assertThat(verdicts).hasSize(17);
    for (MonthVerdict verdict : verdicts) {
      assertThat(verdict.judgement().flagged()).as("%s", verdict.month()).isFalse();
      assertThat(verdict.judgement().likeliest().cause()).isEqualTo(Cause.NONE);
      double truth = evaporated(system, verdict.month());
      assertThat(verdict.water().evaporation().orElseThrow().value().litres())
          .as("evaporation of %s", verdict.month())
          .isCloseTo(truth, within(0.03 * truth));
      VolumeEstimate unaccounted = verdict.water().unaccounted().orElseThrow();
      assertThat(unaccounted.low().litres()).isNegative();
      assertThat(unaccounted.high().litres()).isPositive();
    }
  }

  /** A leak of a fifth of the makeup before the basin, from the first of August on. */
  @Test
  void leakBeforeTheBasinIsFlaggedAndMeasured() {
    MadeUpSystem system = new MadeUpSystem();
    int onset = 212;
    double litres = 0.2 * 4.0 / 3 * evaporated(system, YearMonth.of(2025, 6)) / 30;
    system.freshLossL = day -> day >= onset ? litres : 0;
    system.observed();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts.subList(0, 7)) {
      assertThat(verdict.judgement().flagged()).as("%s", verdict.month()).isFalse();
    }
    for (MonthVerdict verdict : verdicts.subList(8, 17)) {
      assertThat(verdict.judgement().waste()).as("%s", verdict.month()).isTrue();
      assertThat(verdict.judgement().causeSet())
          .containsAnyOf(Cause.MAKEUP_LINE_LEAK, Cause.OTHER_USE);
      double month = litres * verdict.month().lengthOfMonth();
      VolumeEstimate loss = verdict.water().loss().orElseThrow();
      assertThat(loss.value().litres()).isCloseTo(month, within(0.25 * month));
      assertThat(month).isBetween(loss.low().litres(), loss.high().litres());
    }
    assertThat(verdicts.get(16).judgement().onset()).contains(YearMonth.of(2025, 8));
  }

  /** FORMATS: makeup is the sum of its parts, to rounding, whatever the verdict. */
  @Test
  void partsOfTheWaterAddUpToTheMakeup() {
    MadeUpSystem system = new MadeUpSystem();
    system.freshLossL = day -> day >= 250 ? 8_000 : 0;

    for (MonthVerdict verdict : RECONCILER.judge(system.observed().facts(), FIRST, LAST)) {
      WaterFigures w = verdict.water();
      double sum =
          w.evaporation().orElseThrow().value().litres()
              + litres(w.drift())
              + litres(w.neededBlowdown())
              + litres(w.excessLoss())
              + litres(w.freshLoss())
              + litres(w.otherUse())
              + litres(w.storageChange())
              + litres(w.meterCorrection())
              + litres(w.residual());
      assertThat(sum).isCloseTo(w.makeup().orElseThrow().value().litres(), within(1e-6 * sum));
      assertThat(litres(w.excessLoss())).isNotNegative();
      assertThat(litres(w.freshLoss())).isNotNegative();
    }
  }

  @Test
  void orderOfFactsDoesNotMatterAndRepeatingChangesNothing() {
    SystemFacts facts = leaking().facts();
    Random random = new Random(11);

    List<MonthVerdict> verdicts = RECONCILER.judge(facts, FIRST, LAST);

    assertThat(RECONCILER.judge(facts, FIRST, LAST)).isEqualTo(verdicts);
    assertThat(
            new Reconciler(ReconciliationPolicy.standard())
                .judge(shuffled(facts, random), FIRST, LAST))
        .isEqualTo(verdicts);
  }

  /** A month closes ten days after its end: what comes to light later never changes it. */
  @Test
  void laterFactsNeverChangeAnEarlierMonth() {
    SystemFacts all = leaking().facts();
    List<MonthVerdict> verdicts = RECONCILER.judge(all, FIRST, LAST);

    for (int last = 3; last < 17; last += 4) {
      YearMonth month = FIRST.plusMonths(last);
      Instant close =
          CalendarMonth.of(month, MadeUpSystem.ZONE)
              .span()
              .endExclusive()
              .plus(Duration.ofDays(10));
      List<MonthVerdict> then = RECONCILER.judge(until(all, close), FIRST, month);

      assertThat(then).isEqualTo(verdicts.subList(0, last + 1));
    }
  }

  /** Asked for one month alone, it comes out as it does among the others. */
  @Test
  void monthComesOutTheSameWhicheverMonthsAreAskedFor() {
    SystemFacts facts = leaking().facts();
    YearMonth month = YearMonth.of(2025, 10);

    List<MonthVerdict> alone = RECONCILER.judge(facts, month, month);

    assertThat(alone).containsExactly(RECONCILER.judge(facts, FIRST, LAST).get(9));
  }

  @Test
  void withoutSamplesTheMonthSaysWhatToAdd() {
    MadeUpSystem system = new MadeUpSystem().observed();
    system.samples = List.of();
    system.targetCycles = OptionalDouble.empty();

    MonthVerdict verdict = last(system);

    assertThat(verdict.water().cycles()).isEmpty();
    assertThat(verdict.water().neededBlowdown()).isEmpty();
    assertThat(verdict.judgement().flagged()).isFalse();
    assertThat(verdict.whatToAdd())
        .anyMatch(wish -> wish.contains("conductivity of makeup and basin"))
        .anyMatch(wish -> wish.contains("target cycles"));
  }

  @Test
  void oneReadingIsNotEnoughEvidence() {
    MadeUpSystem system = new MadeUpSystem().observed();
    system.volumes = List.of();
    SystemFacts facts = system.facts();
    SystemFacts metered = with(facts, List.of(MadeUpSystem.meter("M", List.of())));

    MonthVerdict verdict = RECONCILER.judge(metered, FIRST, LAST).get(5);

    assertMissing(verdict, "makeup meter readings that enclose the whole month");
    assertThat(verdict.water().expectedMakeup()).isPresent();
    assertThat(verdict.water().evaporation()).isPresent();
  }

  /** Thirteen months without a reading are thirteen months without a verdict, not zeros. */
  @Test
  void missingMonthsStayMissing() {
    MadeUpSystem system = new MadeUpSystem().observed();
    Instant gap = MadeUpSystem.at(59);
    Instant end = MadeUpSystem.at(59 + 396);
    system.volumes =
        system.volumes.stream()
            .filter(
                v ->
                    !v.span().startInclusive().isAfter(gap)
                        || !v.span().endExclusive().isBefore(end))
            .toList();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts.subList(3, 14)) {
      assertMissing(verdict, "makeup meter readings that enclose the whole month");
    }
    assertThat(verdicts.get(0).water().unaccounted()).isPresent();
    assertThat(verdicts.get(16).water().unaccounted()).isPresent();
  }

  /** The volume over a meter's exchange cannot be told and is left out: a gap of a week. */
  @Test
  void meterExchangedInMidMonthLeavesTheMonthJudged() {
    MadeUpSystem system = new MadeUpSystem().observed();
    List<RegisterVolume> first = system.volumes.subList(0, 40);
    List<RegisterVolume> second = system.volumes.subList(40, system.volumes.size());
    SystemFacts facts =
        with(
            system.facts(),
            List.of(MadeUpSystem.meter("OLD", first), MadeUpSystem.meter("NEW", second)));

    List<MonthVerdict> verdicts = RECONCILER.judge(facts, FIRST, LAST);

    assertThat(verdicts).allMatch(v -> v.water().makeup().isPresent() && !v.judgement().flagged());
  }

  /** Two meters side by side are summed; while one of them is not read, the makeup is not known. */
  @Test
  void twoMakeupMetersAreSummedAndOneUnreadIsMissing() {
    MadeUpSystem system = new MadeUpSystem().observed();
    List<RegisterVolume> most =
        system.volumes.stream().map(v -> RegisterVolume.read(v.span(), 0.7 * v.litres())).toList();
    List<RegisterVolume> rest =
        system.volumes.stream().map(v -> RegisterVolume.read(v.span(), 0.3 * v.litres())).toList();
    SystemFacts both =
        with(
            system.facts(),
            List.of(MadeUpSystem.meter("MOST", most), MadeUpSystem.meter("REST", rest)));
    SystemFacts unread =
        with(
            system.facts(),
            List.of(
                MadeUpSystem.meter("MOST", most), MadeUpSystem.meter("REST", rest.subList(0, 40))));

    List<MonthVerdict> one = RECONCILER.judge(system.facts(), FIRST, LAST);
    List<MonthVerdict> summed = RECONCILER.judge(both, FIRST, LAST);
    MonthVerdict missing = RECONCILER.judge(unread, FIRST, LAST).get(12);

    for (int month = 0; month < one.size(); month++) {
      assertThat(summed.get(month).water().makeup().orElseThrow().value().litres())
          .isCloseTo(one.get(month).water().makeup().orElseThrow().value().litres(), within(1.0));
    }
    assertMissing(missing, "makeup meter readings that enclose the whole month");
  }

  /** Loggers drop hours: a month with 22 of 24 hours of each day is judged on them. */
  @Test
  void intervalsWithGapsAndNoRegisterStillTellTheMonth() {
    MadeUpSystem system = new MadeUpSystem().observed();
    SystemFacts logged =
        with(system.facts(), List.of(MadeUpSystem.logger("LOG", system, hour -> hour % 24 < 22)));

    List<MonthVerdict> one = RECONCILER.judge(system.facts(), FIRST, LAST);
    List<MonthVerdict> gappy = RECONCILER.judge(logged, FIRST, LAST);

    for (int month = 1; month < one.size() - 1; month++) {
      double litres = one.get(month).water().makeup().orElseThrow().value().litres();
      assertThat(gappy.get(month).water().makeup().orElseThrow().value().litres())
          .isCloseTo(litres, within(0.02 * litres));
      assertThat(gappy.get(month).judgement().flagged()).isFalse();
    }
  }

  @Test
  void impossibleVolumeIsRefusedWithAReason() {
    MadeUpSystem system = new MadeUpSystem().observed();
    List<RegisterVolume> volumes = new ArrayList<>(system.volumes);
    volumes.set(30, RegisterVolume.read(volumes.get(30).span(), 37_850_000));
    system.volumes = volumes;
    YearMonth month =
        CalendarMonth.containing(volumes.get(30).span().endExclusive(), MadeUpSystem.ZONE).month();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    MonthVerdict hit = verdicts.get((int) FIRST.until(month, java.time.temporal.ChronoUnit.MONTHS));
    assertMissing(hit, "correction of the makeup reading");
    assertThat(hit.judgement().likeliest().evidenceFor())
        .anyMatch(reason -> reason.contains("more than the fill could pass"));
    assertThat(verdicts.get(16).judgement().flagged()).isFalse();
  }

  @Test
  void refusesNegativeVolume() {
    assertThatThrownBy(
            () -> RegisterVolume.read(Span.of(MadeUpSystem.at(0), MadeUpSystem.at(7)), -5))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("is below 0 L");
  }

  @Test
  void cyclesBelowOneAreNotBelieved() {
    MadeUpSystem system = new MadeUpSystem().observed();
    List<WaterSample> samples = new ArrayList<>(system.samples);
    Instant at = samples.get(samples.size() - 1).takenAt();
    samples.set(samples.size() - 1, WaterSample.ofConductivities(at, 1600, 400));
    system.samples = samples;
    YearMonth month = CalendarMonth.containing(at, MadeUpSystem.ZONE).month();

    MonthVerdict verdict = RECONCILER.judge(system.facts(), month, month).get(0);

    assertThat(verdict.judgement().flagged()).isFalse();
    assertThat(verdict.whatToAdd()).anyMatch(wish -> wish.contains("weaker than the makeup"));
    verdict.water().cycles().ifPresent(c -> assertThat(c).isGreaterThan(1));
  }

  @Test
  void refusesMonthsInTheWrongOrder() {
    assertThatThrownBy(() -> RECONCILER.judge(new MadeUpSystem().facts(), LAST, FIRST))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("is before the first");
  }

  @Test
  void probabilitiesOfTheCausesAddUpToOne() {
    for (MonthVerdict verdict : RECONCILER.judge(leaking().facts(), FIRST, LAST)) {
      double sum =
          verdict.judgement().opinions().stream().mapToDouble(CauseOpinion::probability).sum();
      assertThat(sum).isCloseTo(1, within(1e-9));
    }
  }

  private static MadeUpSystem leaking() {
    MadeUpSystem system = new MadeUpSystem();
    system.freshLossL = day -> day >= 230 ? 12_000 : 0;
    return system.observed();
  }

  private MonthVerdict last(MadeUpSystem system) {
    return RECONCILER.judge(system.facts(), FIRST, LAST).get(16);
  }

  private static void assertMissing(MonthVerdict verdict, String wish) {
    assertThat(verdict.judgement().likeliest().cause()).isEqualTo(Cause.MISSING_DATA);
    assertThat(verdict.judgement().flagged()).isFalse();
    assertThat(verdict.water().makeup()).isEmpty();
    assertThat(verdict.water().unaccounted()).isEmpty();
    assertThat(verdict.water().residual()).isEmpty();
    assertThat(verdict.whatToAdd()).anyMatch(w -> w.contains(wish));
  }

  private static double evaporated(MadeUpSystem system, YearMonth month) {
    int first = (int) MadeUpSystem.FROM.until(month.atDay(1), java.time.temporal.ChronoUnit.DAYS);
    double sum = 0;
    for (int day = first; day < first + month.lengthOfMonth(); day++) {
      sum += system.evaporationL(day);
    }
    return sum;
  }

  private static double litres(Optional<Volume> volume) {
    return volume.orElseThrow().litres();
  }

  private static SystemFacts with(SystemFacts f, List<MeterFacts> meters) {
    return new SystemFacts(
        f.system(),
        f.zone(),
        f.attributes(),
        f.towers(),
        f.settings(),
        f.weather(),
        f.heat(),
        meters,
        f.samples(),
        f.pressures(),
        f.visits());
  }

  private static SystemFacts shuffled(SystemFacts f, Random random) {
    List<HeatEvidence> heat = new ArrayList<>(f.heat());
    List<WaterSample> samples = new ArrayList<>(f.samples());
    List<RegisterVolume> volumes = new ArrayList<>(f.meters().get(0).registers());
    Collections.shuffle(heat, random);
    Collections.shuffle(samples, random);
    Collections.shuffle(volumes, random);
    return new SystemFacts(
        f.system(),
        f.zone(),
        f.attributes(),
        f.towers(),
        f.settings(),
        f.weather(),
        heat,
        List.of(MadeUpSystem.meter("M", volumes)),
        samples,
        f.pressures(),
        f.visits());
  }

  private static SystemFacts until(SystemFacts f, Instant close) {
    return new SystemFacts(
        f.system(),
        f.zone(),
        f.attributes(),
        f.towers(),
        f.settings(),
        f.weather(),
        f.heat().stream().filter(h -> !h.span().endExclusive().isAfter(close)).toList(),
        List.of(
            MadeUpSystem.meter(
                "M",
                f.meters().get(0).registers().stream()
                    .filter(v -> !v.span().endExclusive().isAfter(close))
                    .toList())),
        f.samples().stream().filter(s -> !s.takenAt().isAfter(close)).toList(),
        f.pressures(),
        f.visits());
  }
}
