package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.WaterSample;
import towerledger.quantity.Span;

/** Verdicts of made-up systems whose truth is known. */
class VerdictCasesTest {

  private static final YearMonth FIRST = YearMonth.of(2025, 1);
  private static final YearMonth LAST = YearMonth.of(2026, 5);

  /** The first of August. */
  private static final int ONSET = 212;

  private static final Reconciler RECONCILER = new Reconciler(ReconciliationPolicy.standard());

  /** Expected water is told all the same; what nobody metered is neither guessed nor nothing. */
  @Test
  void withoutAMakeupMeterTheExpectedWaterIsToldAndNoLoss() {
    MadeUpSystem system = new MadeUpSystem();
    system.samples.add(WaterSample.ofConductivities(MadeUpSystem.at(5), 300, 1200));

    MonthVerdict june = RECONCILER.judge(system.facts(), FIRST, LAST).get(5);

    assertThat(june.judgement().likeliest().cause()).isEqualTo(Cause.MISSING_DATA);
    assertThat(june.water().makeup()).isEmpty();
    assertThat(june.water().loss()).isEmpty();
    assertThat(june.water().unaccounted()).isEmpty();
    double expected = evaporated(system, june.month()) * 4 / 3;
    VolumeEstimate told = june.water().expectedMakeup().orElseThrow();
    assertThat(told.value().litres()).isCloseTo(expected, within(0.1 * expected));
    assertThat(expected).isBetween(told.low().litres(), told.high().litres());
    assertThat(june.whatToAdd()).anyMatch(wish -> wish.contains("meter"));
  }

  @Test
  void lossSinceOnsetAddsUpWhatALastingLeakDrew() {
    MadeUpSystem system = new MadeUpSystem();
    double litres = leak(system);
    system.freshLossL = day -> day >= ONSET ? litres : 0;
    system.observed();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    double drawn = 0;
    for (int m = 7; m < 12; m++) {
      drawn += litres * verdicts.get(m).month().lengthOfMonth();
    }
    VolumeEstimate since = verdicts.get(11).judgement().lossSinceOnset().orElseThrow();
    assertThat(since.value().litres()).isCloseTo(drawn, within(0.25 * drawn));
    assertThat(drawn).isBetween(since.low().litres(), since.high().litres());
  }

  /** Sizes are followed in steps of three fifths; what lies between them is learned. */
  @ParameterizedTest
  @ValueSource(doubles = {1, 1.1, 1.2, 1.3, 1.4, 1.5})
  void aLossBetweenTheSizesFollowedIsMeasuredAndNamedAsWell(double factor) {
    MadeUpSystem system = new MadeUpSystem();
    double litres = factor * leak(system);
    system.freshLossL = day -> day >= ONSET ? litres : 0;
    system.observed();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts.subList(9, 17)) {
      double month = litres * verdict.month().lengthOfMonth();
      double loss = verdict.water().loss().orElseThrow().value().litres();
      assertThat(loss).as("%s", verdict.month()).isCloseTo(month, within(0.08 * month));
      assertThat(verdict.judgement().causeSet())
          .as("%s", verdict.month())
          .containsAnyOf(Cause.MAKEUP_LINE_LEAK, Cause.OTHER_USE);
    }
  }

  /** A valve wide open for nine days is not held to the size of any story: the meter saw it all. */
  @Test
  void lossSinceOnsetOfAShortFaultIsTheLossOfItsMonth() {
    MadeUpSystem system = new MadeUpSystem();
    double litres = 20 * leak(system);
    system.freshLossL = day -> day >= ONSET + 5 && day < ONSET + 14 ? litres : 0;
    system.observed();

    MonthVerdict august = RECONCILER.judge(system.facts(), FIRST, LAST).get(7);

    assertThat(august.judgement().waste()).isTrue();
    double loss = august.water().loss().orElseThrow().value().litres();
    VolumeEstimate since = august.judgement().lossSinceOnset().orElseThrow();
    assertThat(loss).isCloseTo(9 * litres, within(0.1 * 9 * litres));
    assertThat(since.value().litres()).isCloseTo(loss, within(0.1 * loss));
    assertThat(loss).isBetween(since.low().litres(), since.high().litres());
  }

  /** Metered heat bounds the load: a third more water than it explains cannot all become habit. */
  @Test
  void leakThatWasThereFromTheFirstDayIsNotTakenForTheLoad() {
    MadeUpSystem system = new MadeUpSystem();
    double litres = leak(system);
    system.freshLossL = day -> litres;
    system.observed();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    MonthVerdict year = verdicts.get(11);
    assertThat(year.judgement().waste()).isTrue();
    assertThat(year.judgement().onset()).contains(FIRST);
    double month = litres * year.month().lengthOfMonth();
    assertThat(year.water().loss().orElseThrow().value().litres())
        .as("what is told of the leak; some of it passes for load")
        .isBetween(0.5 * month, 1.2 * month);
  }

  /**
   * What a fill valve passes below the tower's own use costs nothing, so that its loss gathers in
   * the cold months and is gone in summer, year after year: no leak behaves so. The basin's water
   * and solids are walked here by the day, and the controller bleeds at four cycles.
   */
  @Test
  void fillValveThatLeaksByIsToldByItsWinters() {
    MadeUpSystem system = new MadeUpSystem();
    double mean =
        IntStream.range(0, MadeUpSystem.DAYS)
            .mapToDouble(system::evaporationL)
            .average()
            .orElseThrow();
    double passed = 0.75 * mean;
    double volume = 2 * mean;
    double[] extra = new double[MadeUpSystem.DAYS];
    double[] cycles = new double[MadeUpSystem.DAYS];
    double now = MadeUpSystem.CYCLES;
    for (int day = 0; day < extra.length; day++) {
      double evaporated = system.evaporationL(day);
      double spilled = Math.max(0, passed - evaporated);
      now = (volume * now + evaporated + spilled) / (volume + spilled);
      double bled = Math.max(0, volume * (now - MadeUpSystem.CYCLES) / (MadeUpSystem.CYCLES - 1));
      now = Math.min(now, MadeUpSystem.CYCLES);
      extra[day] = spilled + bled - evaporated / (MadeUpSystem.CYCLES - 1);
      cycles[day] = now;
    }
    system.volumeLitres = OptionalDouble.of(volume);
    system.freshLossL = day -> extra[day];
    system.observed();
    system.samples =
        new ArrayList<>(
            IntStream.iterate(0, day -> day < extra.length, day -> day + 14)
                .mapToObj(
                    day ->
                        WaterSample.ofConductivities(
                            MadeUpSystem.at(day).plus(Duration.ofHours(23)),
                            400,
                            400 * cycles[day]))
                .toList());

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    MonthVerdict second = verdicts.get(12);
    assertThat(second.judgement().waste()).isTrue();
    assertThat(second.judgement().likeliest().cause()).isEqualTo(Cause.FILL_VALVE_LEAKING_BY);
    assertThat(verdicts.get(6).judgement().waste()).isFalse();
  }

  @Test
  void loggedLeakIsDatedToTheHourAndFoundWithinDays() {
    MadeUpSystem system = new MadeUpSystem();
    double litres = leak(system);
    double[] evenly = new double[24];
    java.util.Arrays.fill(evenly, 1.0 / 24);
    system.freshLossByHour = evenly;
    system.freshLossL = day -> day >= ONSET ? litres : 0;
    system.observed();

    MonthVerdict august = RECONCILER.judge(system.facts(), FIRST, YearMonth.of(2025, 8)).get(7);

    Instant onset = MadeUpSystem.at(ONSET);
    assertThat(august.judgement().waste()).isTrue();
    assertThat(august.judgement().onsetAt().orElseThrow())
        .isBetween(onset.minus(Duration.ofHours(6)), onset.plus(Duration.ofHours(6)));
    assertThat(august.judgement().detectedAt().orElseThrow())
        .isBetween(onset, onset.plus(Duration.ofDays(10)));
  }

  @Test
  void withoutALoggerNoHourIsTold() {
    MadeUpSystem system = new MadeUpSystem();
    double litres = leak(system);
    system.freshLossL = day -> day >= ONSET ? litres : 0;
    system.observed();

    assertThat(RECONCILER.judge(system.facts(), FIRST, LAST))
        .extracting(verdict -> verdict.judgement().onsetAt())
        .containsOnly(Optional.empty());
  }

  /**
   * Three quarters of a large loop drained in March and filled again: much water in one week, then
   * none to bleed and thin samples until the solids are back. No litre of it is waste.
   */
  @Test
  void drainThatNobodyNotedIsNoWaste() {
    MadeUpSystem system = new MadeUpSystem();
    double loopL = 120_000;
    int drained = 75;
    system.volumeLitres = OptionalDouble.of(loopL);
    double[] cycles = new double[MadeUpSystem.DAYS];
    double kept = 4;
    for (int day = 0; day < cycles.length; day++) {
      kept = day == drained ? 1 + 0.25 * 3 : Math.min(4, kept + system.evaporationL(day) / loopL);
      cycles[day] = kept;
    }
    system.freshLossL =
        day -> day == drained ? 0.75 * loopL : cycles[day] < 4 ? -system.evaporationL(day) / 3 : 0;
    system.observed();
    sampled(system, cycles);

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts) {
      assertThat(verdict.judgement().flagged()).as("%s", verdict.month()).isFalse();
    }
    assertThat(verdicts.get(2).water().storageChange().orElseThrow().litres())
        .isBetween(0.3 * loopL, loopL);
  }

  /** A drain fills the basin anew and thins its water; the pipe before it leaks on all the same. */
  @Test
  void leakOutlivesADrainThatNobodyNoted() {
    MadeUpSystem system = new MadeUpSystem();
    double litres = leak(system);
    double loopL = 120_000;
    int drained = ONSET + 75;
    system.volumeLitres = OptionalDouble.of(loopL);
    double[] cycles = new double[MadeUpSystem.DAYS];
    double kept = 4;
    for (int day = 0; day < cycles.length; day++) {
      kept = day == drained ? 1 + 0.25 * 3 : Math.min(4, kept + system.evaporationL(day) / loopL);
      cycles[day] = kept;
    }
    system.freshLossL =
        day ->
            (day >= ONSET ? litres : 0)
                + (day == drained ? 0.75 * loopL : 0)
                - (cycles[day] < 4 ? system.evaporationL(day) / 3 : 0);
    system.observed();
    sampled(system, cycles);

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts.subList(8, 16)) {
      assertThat(verdict.judgement().waste()).as("%s", verdict.month()).isTrue();
    }
    double month = litres * verdicts.get(11).month().lengthOfMonth();
    assertThat(verdicts.get(11).water().loss().orElseThrow().value().litres())
        .isCloseTo(month, within(0.3 * month));
  }

  /**
   * A plain clock opens the bleed for the same time each day, summer and winter: the basin is thin
   * in winter and thick in summer, and the makeup is what evaporates and the same bleed on top. It
   * wastes some water, but nothing is broken and nothing leaks.
   */
  @Test
  void clockThatBleedsTheSameWhateverTheLoadIsNoLeak() {
    MadeUpSystem system = new MadeUpSystem();
    system.control = OperatingSettings.BlowdownControl.TIMER;
    double mean = IntStream.range(0, 365).mapToDouble(system::evaporationL).average().orElseThrow();
    double bled = mean / (MadeUpSystem.CYCLES - 1);
    double loopL = 3 * mean;
    system.volumeLitres = OptionalDouble.of(loopL);
    double[] cycles = new double[MadeUpSystem.DAYS];
    double kept = 1 + system.evaporationL(0) / bled;
    for (int day = 0; day < cycles.length; day++) {
      kept = (loopL * kept + system.evaporationL(day) + bled) / (loopL + bled);
      cycles[day] = kept;
    }
    system.freshLossL = day -> bled - system.evaporationL(day) / (MadeUpSystem.CYCLES - 1);
    system.observed();
    sampled(system, cycles);

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts) {
      assertThat(verdict.judgement().flagged()).as("%s", verdict.month()).isFalse();
    }
  }

  /** Takes the samples anew from a basin whose cycles are known by the day. */
  private static void sampled(MadeUpSystem system, double[] cycles) {
    for (int i = 0; i < system.samples.size(); i++) {
      Instant at = system.samples.get(i).takenAt();
      int day = (int) Duration.between(MadeUpSystem.at(0), at).toDays();
      system.samples.set(i, WaterSample.ofConductivities(at, 400, 400 * cycles[day]));
    }
  }

  @Test
  void thirteenMonthsWithoutReadingsSayWhatToAddAndNoFigure() {
    MadeUpSystem system = new MadeUpSystem().observed();
    Span gap = Span.of(MadeUpSystem.at(56), MadeUpSystem.at(56 + 406));
    List<RegisterVolume> kept =
        system.volumes.stream()
            .filter(
                v ->
                    v.span().endExclusive().compareTo(gap.startInclusive()) <= 0
                        || v.span().startInclusive().compareTo(gap.endExclusive()) >= 0)
            .toList();
    system.volumes.clear();
    system.volumes.addAll(kept);

    List<MonthVerdict> verdicts = RECONCILER.judge(system.facts(), FIRST, LAST);

    for (MonthVerdict verdict : verdicts.subList(2, 15)) {
      assertThat(verdict.judgement().likeliest().cause())
          .as("%s", verdict.month())
          .isEqualTo(Cause.MISSING_DATA);
      assertThat(verdict.water().loss()).isEmpty();
      assertThat(verdict.whatToAdd()).isNotEmpty();
    }
    assertThat(verdicts.get(0).judgement().likeliest().cause()).isEqualTo(Cause.NONE);
    assertThat(verdicts.get(16).judgement().likeliest().cause()).isEqualTo(Cause.NONE);
  }

  /** A meter of heat that fell silent for ten days is, when it speaks again, as good as before. */
  @Test
  void gapInTheHeatTakesNothingFromWhatIsKnownOfTheMonthsAfterIt() {
    MadeUpSystem whole = new MadeUpSystem().observed();
    MadeUpSystem gapped = new MadeUpSystem().observed();
    gapped.heatKnown = day -> day < ONSET - 60 || day >= ONSET - 50;

    double known = halfWidth(RECONCILER.judge(whole.facts(), FIRST, LAST).get(7));
    double knownAfter = halfWidth(RECONCILER.judge(gapped.facts(), FIRST, LAST).get(7));

    assertThat(knownAfter).isCloseTo(known, within(0.25 * known));
  }

  private static double halfWidth(MonthVerdict verdict) {
    return verdict.water().expectedMakeup().orElseThrow().halfWidthLitres();
  }

  /** A third of the sound makeup of June, L a day. */
  static double leak(MadeUpSystem system) {
    return 0.33 * 4.0 / 3 * evaporated(system, YearMonth.of(2025, 6)) / 30;
  }

  private static double evaporated(MadeUpSystem system, YearMonth month) {
    int first = (int) Duration.between(MadeUpSystem.at(0), at(month)).plusHours(2).toDays();
    double litres = 0;
    for (int d = first; d < first + month.lengthOfMonth(); d++) {
      litres += system.evaporationL(d);
    }
    return litres;
  }

  private static Instant at(YearMonth month) {
    return month.atDay(1).atStartOfDay(MadeUpSystem.ZONE).toInstant();
  }
}
