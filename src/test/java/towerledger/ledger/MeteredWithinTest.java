package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;

/** Worked by hand: read on days 0, 8 and 12, asked for days 4 to 12. */
class MeteredWithinTest {

  private static final List<RegisterVolume> READ =
      List.of(
          RegisterVolume.read(Span.of(day(0), day(8)), 800),
          RegisterVolume.read(Span.of(day(8), day(12)), 500));

  @Test
  void sharesARegisterOutEvenlyWhereNothingElseIsKnown() {
    assertThat(litres(IntervalVolumes.none())).isCloseTo(400 + 500, within(1e-6));
  }

  @Test
  void sharesARegisterOutAsTheIntervalsBetweenItsReadingsShowIt() {
    // a logger that counts 1 % less than the register: 49.5 L a day, then 148.5
    assertThat(litres(daily(12, 49.5f, 148.5f))).isCloseTo(600 + 500, within(1e-3));
  }

  @Test
  void leavesIntervalsAsideThatDoNotEncloseTheReadings() {
    assertThat(litres(daily(6, 49.5f, 148.5f))).isCloseTo(400 + 500, within(1e-6));
  }

  private static double litres(IntervalVolumes intervals) {
    var meter =
        new MeterFacts(
            "M",
            MeterFacts.Role.MAKEUP,
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty(),
            READ,
            intervals);
    return MeteredWithin.of(meter, Span.of(day(4), day(12))).orElseThrow().litres();
  }

  /** Days of one volume before day 4, of another from then on. */
  private static IntervalVolumes daily(int days, float before, float after) {
    long[] starts = new long[days];
    int[] minutes = new int[days];
    float[] litres = new float[days];
    Arrays.fill(minutes, 24 * 60);
    for (int day = 0; day < days; day++) {
      starts[day] = day(day).getEpochSecond();
      litres[day] = day < 4 ? before : after;
    }
    return new IntervalVolumes(starts, minutes, litres);
  }

  private static Instant day(int day) {
    return LocalDate.of(2025, 9, 27).plusDays(day).atStartOfDay(ZoneOffset.UTC).toInstant();
  }
}
