package towerledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.account.UnitPreference;

class ReportPlanTest {

  /**
   * Offsets of America/New_York: −5 h in winter, −4 h from 8 March to 1 November 2026 (tz data).
   */
  @ParameterizedTest
  @CsvSource({
    "2026-01, 2026-02-12T12:00:00Z",
    "2026-02, 2026-03-12T11:00:00Z",
    "2026-10, 2026-11-12T12:00:00Z",
    "2026-12, 2027-01-12T12:00:00Z"
  })
  void fallsDueAtTheHourOfTheCustomersOwnClock(YearMonth month, Instant due) {
    assertThat(plan(12, 7).due(month)).isEqualTo(due);
  }

  @ParameterizedTest
  @CsvSource({
    "2026-11-12T11:59:59Z, 2026-09",
    "2026-11-12T12:00:00Z, 2026-10",
    "2026-12-01T04:00:00Z, 2026-10",
    "2027-01-12T12:00:00Z, 2026-12"
  })
  void knowsTheNewestMonthThatIsDue(Instant now, YearMonth month) {
    assertThat(plan(12, 7).newestDue(now)).isEqualTo(month);
    assertThat(plan(12, 7).nextMonth(now)).isEqualTo(month.plusMonths(1));
  }

  @Test
  void refusesDaysThatSomeMonthsLack() {
    assertThatThrownBy(() -> plan(29, 7))
        .isInstanceOf(ReportException.class)
        .hasMessageContaining("1 to 28");
    assertThatThrownBy(() -> plan(1, 24)).isInstanceOf(ReportException.class);
  }

  private static ReportPlan plan(int day, int hour) {
    return new ReportPlan(
        1,
        true,
        day,
        hour,
        ZoneId.of("America/New_York"),
        "en",
        UnitPreference.US,
        false,
        false,
        null,
        null,
        Instant.EPOCH);
  }
}
