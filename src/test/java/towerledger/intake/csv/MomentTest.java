package towerledger.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import towerledger.intake.csv.Moment.BareDate;

class MomentTest {

  private static final ZoneId CHICAGO = ZoneId.of("America/Chicago");

  private static Moment parse(String cell) {
    return Moment.parse("read_at", cell, CHICAGO, BareDate.NOON);
  }

  @ParameterizedTest
  @CsvSource({
    "2025-07-01T14:30:00Z, 2025-07-01T14:30:00Z, 0",
    "2025-07-01T14:30Z, 2025-07-01T14:30:00Z, 0",
    "2025-07-01T14:30-05:00, 2025-07-01T19:30:00Z, 0",
    "2025-07-01T14:30:15+02:00, 2025-07-01T12:30:15Z, 0",
    "2025-07-31T23:30:00-05:00, 2025-08-01T04:30:00Z, 0",
    "2025-07-01T14:30, 2025-07-01T19:30:00Z, 0",
    "2025-07-01 14:30, 2025-07-01T19:30:00Z, 0",
    "2025-07-01T14:30:00.250Z, 2025-07-01T14:30:00.250Z, 0",
    "2025-12-01, 2025-12-01T18:00:00Z, 12",
    "2024-02-29, 2024-02-29T18:00:00Z, 12"
  })
  void readsInstantsLocalTimesAndDates(String cell, Instant instant, double giveOrTakeHours) {
    assertThat(parse(cell)).isEqualTo(new Moment(instant, giveOrTakeHours));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2025-02-29",
        "2025-02-30T10:00Z",
        "2025-13-01T00:00Z",
        "1899-12-31",
        "2999-01-01T00:00Z",
        "7/1/2025",
        "2025-07-01T25:00",
        "2025-07-01T10:60Z",
        "2025-07-01T10:00+25:00",
        "2025-07-01T10:00:00ZZ",
        "yesterday",
        "20250701"
      })
  void refusesWhatIsNoMomentWithTheCellInTheReason(String cell) {
    assertThatThrownBy(() -> parse(cell))
        .isInstanceOf(RowProblem.class)
        .hasMessageContaining("read_at")
        .hasMessageContaining(cell);
  }

  @Test
  void refusesHoursThatCameTwiceOrNever() {
    assertThatThrownBy(() -> parse("2025-11-02T01:30")).hasMessageContaining("came twice");
    assertThatThrownBy(() -> parse("2025-03-09T02:30")).hasMessageContaining("does not exist");
  }

  @Test
  void readsTheCommonShapesAsTheLibraryDoes() {
    var random = new Random(7);
    for (int i = 0; i < 20_000; i++) {
      var offset = ZoneOffset.ofTotalSeconds((random.nextInt(37) - 18) * 1800);
      var time = Instant.ofEpochSecond(random.nextInt(Integer.MAX_VALUE)).atOffset(offset);
      String cell = time.toString();

      assertThat(parse(cell).instant())
          .as("seed 7: %s", cell)
          .isEqualTo(OffsetDateTime.parse(cell).toInstant());
    }
  }
}
