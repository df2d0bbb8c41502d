package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** The same water a day, lost at other hours: only a logged meter can tell a leak from a hose. */
class DayShapesTest {

  private static final int ONSET = 212;

  /** About a fifth of the makeup of a summer's day. */
  private static final double LOSS_L = 5_000;

  private static final YearMonth FIRST = YearMonth.of(2025, 1);
  private static final YearMonth WELL_AFTER = YearMonth.of(2025, 12);

  private static final Reconciler RECONCILER = new Reconciler(ReconciliationPolicy.standard());

  @Test
  void leakThatNeverRestsIsNotTakenForAHose() {
    Judgement judgement = judge(evenly());

    assertThat(judgement.waste()).isTrue();
    assertThat(judgement.likeliest().cause()).isEqualTo(Cause.MAKEUP_LINE_LEAK);
    assertThat(judgement.causeSet()).doesNotContain(Cause.OTHER_USE);
  }

  @Test
  void hoseInWorkingHoursIsNotTakenForALeak() {
    Judgement judgement = judge(atWork());

    assertThat(judgement.waste()).isTrue();
    assertThat(judgement.likeliest().cause()).isEqualTo(Cause.OTHER_USE);
    assertThat(judgement.causeSet()).doesNotContain(Cause.MAKEUP_LINE_LEAK);
  }

  @Test
  void withoutALoggerTheTwoAreNamedTogether() {
    assertThat(judge(null).causeSet()).contains(Cause.MAKEUP_LINE_LEAK, Cause.OTHER_USE);
  }

  @Test
  void soundTowerWithALoggerIsLeftAlone() {
    MadeUpSystem system = new MadeUpSystem();
    system.freshLossByHour = evenly();

    List<MonthVerdict> verdicts = RECONCILER.judge(system.observed().facts(), FIRST, WELL_AFTER);

    assertThat(verdicts).noneMatch(v -> v.judgement().flagged());
  }

  /**
   * From August on the same water is lost, every day at all hours or on working days in working
   * hours.
   */
  private static Judgement judge(double @Nullable [] byHour) {
    MadeUpSystem system = new MadeUpSystem();
    boolean everyDay = byHour == null || byHour[0] > 0;
    system.freshLossL =
        day ->
            day < ONSET
                ? 0
                : everyDay
                    ? LOSS_L
                    : MadeUpSystem.FROM.plusDays(day).getDayOfWeek().getValue() <= 5
                        ? LOSS_L * 7 / 5
                        : 0;
    system.freshLossByHour = byHour;
    List<MonthVerdict> verdicts = RECONCILER.judge(system.observed().facts(), FIRST, WELL_AFTER);
    return verdicts.get(verdicts.size() - 1).judgement();
  }

  private static double[] evenly() {
    double[] hours = new double[24];
    Arrays.fill(hours, 1 / 24.0);
    return hours;
  }

  private static double[] atWork() {
    double[] hours = new double[24];
    Arrays.fill(hours, 7, 17, 0.1);
    return hours;
  }
}
