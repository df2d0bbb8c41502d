package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Held against the platform's own conversion, hour by hour. */
class LocalHoursTest {

  private static final long START = Instant.parse("2025-01-01T00:00:00Z").getEpochSecond();
  private static final int HOURS = 24 * 700;

  @ParameterizedTest
  @ValueSource(strings = {"America/Chicago", "Australia/Lord_Howe", "America/Phoenix", "UTC"})
  void tellsTheHourAcrossChangesOfTheClock(String name) {
    ZoneId zone = ZoneId.of(name);
    LocalHours local = new LocalHours(zone);
    for (int h = 0; h < HOURS; h++) {
      long second = START + 3600L * h;
      assertThat(local.at(second)).isEqualTo(localOf(second, zone));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"America/Chicago", "America/Phoenix"})
  void tellsTheHourGoingBackwardsToo(String name) {
    ZoneId zone = ZoneId.of(name);
    LocalHours local = new LocalHours(zone);
    for (int h = HOURS; h > 0; h -= 7) {
      long second = START + 3600L * h;
      assertThat(local.at(second)).isEqualTo(localOf(second, zone));
    }
  }

  private static LocalDateTime localOf(long second, ZoneId zone) {
    return Instant.ofEpochSecond(second).atZone(zone).toLocalDateTime();
  }
}
