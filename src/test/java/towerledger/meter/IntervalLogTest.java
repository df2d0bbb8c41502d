package towerledger.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;

/** Interval volumes as loggers send them: shuffled, doubled, overlapping, across clock changes. */
class IntervalLogTest {

  private static final long TEN = Instant.parse("2026-06-01T10:00:00Z").getEpochSecond();

  private static IntervalVolumes tidy(long[][] rows) {
    return log(rows).tidy().volumes();
  }

  private static IntervalLog log(long[][] rows) {
    var log = new IntervalLog();
    for (long[] row : rows) {
      log.add(TEN + 60 * row[0], (int) row[1], row[2]);
    }
    return log;
  }

  private static double sum(IntervalVolumes volumes) {
    double sum = 0;
    for (int i = 0; i < volumes.size(); i++) {
      sum += volumes.litres(i);
    }
    return sum;
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 5, 15, 60})
  void sortsAnyStepAndKeepsTheTotal(int minutes) {
    var rows = new ArrayList<long[]>();
    for (int i = 0; i < 500; i++) {
      rows.add(new long[] {(long) i * minutes, minutes, i % 7});
    }
    Collections.shuffle(rows, new Random(minutes));

    var volumes = tidy(rows.toArray(long[][]::new));

    assertThat(volumes.size()).isEqualTo(500);
    assertThat(sum(volumes)).isEqualTo(rows.stream().mapToLong(r -> r[2]).sum());
    for (int i = 1; i < volumes.size(); i++) {
      assertThat(volumes.startEpochSecond(i)).isGreaterThan(volumes.startEpochSecond(i - 1));
    }
  }

  @Test
  void theLaterOfTwoValuesForOneIntervalStands() {
    var volumes = tidy(new long[][] {{0, 15, 10}, {15, 15, 11}, {0, 15, 12}});

    assertThat(volumes.size()).isEqualTo(2);
    assertThat(volumes.litres(0)).isEqualTo(12);
  }

  @Test
  void gapsStayGaps() {
    var volumes = tidy(new long[][] {{0, 15, 10}, {120, 15, 11}});

    assertThat(volumes.size()).isEqualTo(2);
    assertThat(volumes.startEpochSecond(1)).isEqualTo(TEN + 7200);
  }

  @Test
  void shorterStepsGoBeforeALongerOneTheyCover() {
    var tidy =
        log(new long[][] {{0, 60, 44}, {0, 15, 10}, {15, 15, 11}, {30, 15, 12}, {45, 15, 10}})
            .tidy();

    assertThat(tidy.volumes().size()).isEqualTo(4);
    assertThat(sum(tidy.volumes())).isEqualTo(43);
    assertThat(tidy.remarks()).hasSize(1);
    assertThat(tidy.remarks().get(0).words()).contains("differ by up to 1.0 L");
  }

  @Test
  void aLongerStepStandsWhereTheShorterOnesLeaveAGap() {
    var volumes = tidy(new long[][] {{0, 60, 44}, {15, 15, 11}, {30, 15, 12}, {60, 60, 50}});

    assertThat(volumes.size()).isEqualTo(2);
    assertThat(sum(volumes)).isEqualTo(94);
  }

  @Test
  void ofTwoStepsThatOverlapInPartTheEarlierStands() {
    var volumes = tidy(new long[][] {{30, 60, 7}, {0, 60, 5}, {90, 60, 9}});

    assertThat(volumes.size()).isEqualTo(2);
    assertThat(sum(volumes)).isEqualTo(14);
  }

  @Test
  void theNightTheClocksGoBackHasTwentyFiveHours() {
    // 1 November 2026, America/Chicago: 02:00 CDT becomes 01:00 CST.
    ZoneId chicago = ZoneId.of("America/Chicago");
    var log = new IntervalLog();
    Instant at = LocalDateTime.of(2026, 11, 1, 0, 0).atZone(chicago).toInstant();
    Instant end = LocalDateTime.of(2026, 11, 2, 0, 0).atZone(chicago).toInstant();
    for (; at.isBefore(end); at = at.plusSeconds(3600)) {
      log.add(at.getEpochSecond(), 60, 1);
    }

    var tidy = log.tidy();

    assertThat(tidy.volumes().size()).isEqualTo(25);
    assertThat(tidy.remarks()).isEmpty();
  }

  @Test
  void noOverlapEverRemains() {
    for (long seed = 0; seed < 500; seed++) {
      var random = new Random(seed);
      int[] steps = {1, 5, 15, 60, 240};
      var log = new IntervalLog();
      for (int i = 0; i < 60; i++) {
        int step = steps[random.nextInt(steps.length)];
        log.add(TEN + 60L * random.nextInt(600), step, random.nextInt(100));
      }

      // The constructor refuses disorder and overlap.
      IntervalVolumes volumes = log.tidy().volumes();

      assertThat(volumes.size()).as("seed %d", seed).isPositive();
    }
  }

  @Test
  void refusesNegativeAndUnendingVolumes() {
    var log = new IntervalLog();

    assertThatThrownBy(() -> log.add(TEN, 15, -1)).hasMessageContaining("0 L");
    assertThatThrownBy(() -> log.add(TEN, 0, 1)).hasMessageContaining("1 minute");
    assertThatThrownBy(() -> log.add(TEN, 15, Double.NaN)).hasMessageContaining("NaN");
    assertThatThrownBy(() -> log.add(TEN, 15, Double.POSITIVE_INFINITY)).isNotNull();
  }

  @Test
  void comparesReadingsWithTheIntervalsBetweenThem() {
    var hours = new long[48][];
    for (int i = 0; i < 48; i++) {
      hours[i] = new long[] {60L * i, 60, 100};
    }
    var intervals = tidy(hours);
    var day1 = Span.of(Instant.ofEpochSecond(TEN), Instant.ofEpochSecond(TEN + 86_400));
    var day2 = Span.of(Instant.ofEpochSecond(TEN + 86_400), Instant.ofEpochSecond(TEN + 172_800));
    var day3 = Span.of(Instant.ofEpochSecond(TEN + 172_800), Instant.ofEpochSecond(TEN + 259_200));

    var compared =
        KindsCompared.of(
            List.of(
                RegisterVolume.read(day1, 2420),
                RegisterVolume.read(day2, 3000),
                RegisterVolume.read(day3, 2400)),
            intervals,
            OptionalDouble.of(1));

    assertThat(compared).extracting(KindsCompared::disagree).containsExactly(false, true, false);
    assertThat(compared).extracting(KindsCompared::comparable).containsExactly(true, true, false);
    assertThat(compared.get(1).intervalLitres()).isCloseTo(2400, within(1e-6));
    assertThat(compared.get(1).remark("M1").words()).contains("3000", "2400", "multiplier");
  }

  @Test
  void aReadingInTheMiddleOfAnIntervalTakesItsShare() {
    var intervals = tidy(new long[][] {{0, 60, 100}, {60, 60, 40}});
    var span = Span.of(Instant.ofEpochSecond(TEN + 1800), Instant.ofEpochSecond(TEN + 4500));

    var compared =
        KindsCompared.of(List.of(RegisterVolume.read(span, 60)), intervals, OptionalDouble.empty());

    // half of 100 and a quarter of 40
    assertThat(compared.get(0).intervalLitres()).isCloseTo(60, within(1e-9));
    assertThat(compared.get(0).disagree()).isFalse();
  }
}
