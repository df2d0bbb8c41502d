package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

/** Shapes of a day worked out by hand: an office that runs from 6 to 18 on working days. */
class DayProfileTest {

  private static final ZoneId ZONE = ZoneId.of("America/Chicago");

  /** A Monday at midnight. */
  private static final Instant START = Instant.parse("2025-06-02T05:00:00Z");

  private static final int HOURS = 7 * 24;

  @Test
  void towerThatStandsAtNightHasNoFloor() {
    double[] figures = figures(h -> runs(h) ? 100 : 0);

    assertThat(figures[DayProfile.FLOOR]).isZero();
    // 7 to 17 of 6 to 18.
    assertThat(figures[DayProfile.WORK]).isCloseTo(10.0 / 12, within(1e-9));
    // One of twelve running hours is a start; after the stop nothing flows.
    assertThat(figures[DayProfile.EDGES]).isCloseTo(1.0 / 12, within(1e-9));
  }

  @Test
  void leakThatNeverRestsIsTheFloor() {
    double[] figures = figures(h -> (runs(h) ? 100 : 0) + 20);

    double mean = 100 * 60.0 / HOURS + 20;
    assertThat(figures[DayProfile.FLOOR]).isCloseTo(20 / mean, within(1e-9));
  }

  @Test
  void hoseInWorkingHoursRaisesTheirPartAlone() {
    double[] figures =
        figures(h -> (runs(h) ? 100 : 0) + (hour(h) >= 7 && hour(h) < 17 && day(h) <= 5 ? 60 : 0));

    assertThat(figures[DayProfile.FLOOR]).isZero();
    assertThat(figures[DayProfile.WORK]).isCloseTo(160 * 50.0 / (100 * 60 + 60 * 50), within(1e-9));
  }

  @Test
  void whatIsDrawnAfterTheStopLiesAtTheEdges() {
    double[] figures = figures(h -> runs(h) ? 100 : hour(h) == 18 && day(h) <= 5 ? 300 : 0);

    assertThat(figures[DayProfile.EDGES]).isCloseTo(400.0 / 1500, within(1e-9));
  }

  @Test
  void stretchWithoutFlowSaysNothing() {
    for (double figure : figures(h -> 0)) {
      assertThat(figure).isNaN();
    }
  }

  /** The clocks go forward within the week: the working hours follow the local time. */
  @Test
  void workingHoursFollowTheClock() {
    Instant sunday = Instant.parse("2025-03-09T06:00:00Z");
    double[] load = new double[72];
    DayHours kinds = DayHours.of(hours(sunday, load), ZONE);

    for (int h = 0; h < 72; h++) {
      ZonedDateTime local = sunday.plusSeconds(3600L * h).atZone(ZONE);
      boolean work =
          local.getDayOfWeek().getValue() <= 5 && local.getHour() >= 7 && local.getHour() < 17;
      assertThat(kinds.work(h)).as("%s", local).isEqualTo(work);
    }
  }

  private static double[] figures(IntToDoubleFunction flow) {
    double[] load = new double[HOURS];
    double[] logged = new double[HOURS];
    for (int h = 0; h < HOURS; h++) {
      load[h] = runs(h) ? 0.5 : 0;
      logged[h] = flow.applyAsDouble(h);
    }
    double[] figures = new double[DayProfile.FIGURES];
    DayProfile.of(logged, DayHours.of(hours(START, load), ZONE), 0, HOURS, 4, figures);
    return figures;
  }

  private static SystemHours hours(Instant start, double[] load) {
    return new SystemHours(
        start.getEpochSecond(),
        new double[load.length],
        load,
        new byte[load.length],
        new boolean[load.length],
        load);
  }

  private static int hour(int h) {
    return h % 24;
  }

  private static int day(int h) {
    return 1 + h / 24;
  }

  private static boolean runs(int h) {
    return day(h) <= 5 && hour(h) >= 6 && hour(h) < 18;
  }
}
