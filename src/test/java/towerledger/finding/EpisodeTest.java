package towerledger.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static towerledger.balance.Cause.BASIN_LEAK;
import static towerledger.balance.Cause.FILL_VALVE_LEAKING_BY;
import static towerledger.balance.Cause.FILL_VALVE_STUCK_OPEN;
import static towerledger.balance.Cause.MAKEUP_LINE_LEAK;
import static towerledger.balance.Cause.MISSING_DATA;
import static towerledger.finding.Months.JANUARY;
import static towerledger.finding.Months.month;

import java.util.List;
import org.junit.jupiter.api.Test;

class EpisodeTest {

  @Test
  void joinsFlaggedMonthsAcrossOneThatIsNot() {
    List<Episode> found =
        Episode.of(
            List.of(
                month(1, 0, 5_000),
                month(2, 20_000, 5_000, FILL_VALVE_LEAKING_BY),
                month(3, 4_000, 5_000),
                month(4, 22_000, 5_000, FILL_VALVE_LEAKING_BY, MAKEUP_LINE_LEAK),
                month(5, 18_000, 5_000, MAKEUP_LINE_LEAK)));

    assertThat(found).hasSize(1);
    assertThat(found.get(0).first()).isEqualTo(JANUARY.plusMonths(1));
    assertThat(found.get(0).last()).isEqualTo(JANUARY.plusMonths(4));
  }

  @Test
  void beginsAnewAfterTwoSoundMonthsOrForAnotherCause() {
    List<Episode> found =
        Episode.of(
            List.of(
                month(1, 20_000, 5_000, FILL_VALVE_LEAKING_BY),
                month(2, 0, 5_000),
                month(3, 0, 5_000),
                month(4, 20_000, 5_000, FILL_VALVE_LEAKING_BY),
                month(5, 20_000, 5_000, BASIN_LEAK)));

    assertThat(found).hasSize(3);
  }

  @Test
  void passesOverMonthsThatCannotBeTold() {
    assertThat(Episode.of(List.of(month(1, 20_000, 5_000, MISSING_DATA)))).isEmpty();
    assertThat(Episode.of(List.of())).isEmpty();
  }

  /** By hand: (20,000 + 30,000) / 2 × 12 = 300,000 L ± 60,000; at 0.01 a litre 3,000 ± 600. */
  @Test
  void expectsAYearToGoOnLikeTheFlaggedMonths() {
    Episode episode =
        new Episode(
            List.of(
                month(1, 20_000, 5_000, FILL_VALVE_LEAKING_BY),
                month(2, 30_000, 5_000, FILL_VALVE_LEAKING_BY)));

    assertThat(episode.yearlyLitres()).contains(new Range(300_000, 240_000, 360_000));
    assertThat(episode.yearlyAmount()).contains(new Range(3_000, 2_400, 3_600));
    assertThat(episode.pricePerLitre().orElseThrow()).isCloseTo(0.01, within(1e-12));
  }

  /** By hand: two of three months lose 20,000 L, so eight of twelve: 160,000 L ± 40,000. */
  @Test
  void expectsALossThatComesAndGoesInProportion() {
    Episode episode =
        new Episode(
            List.of(
                month(1, 20_000, 5_000, FILL_VALVE_LEAKING_BY),
                month(3, 20_000, 5_000, FILL_VALVE_LEAKING_BY)));

    assertThat(episode.yearlyLitres()).contains(new Range(160_000, 120_000, 200_000));
  }

  /** A valve wide open for some days is closed by whoever sees it: once a year, not every month. */
  @Test
  void expectsAValveWideOpenOnceAYear() {
    Episode episode = new Episode(List.of(month(1, 700_000, 9_000, FILL_VALVE_STUCK_OPEN)));

    assertThat(episode.yearlyLitres()).contains(new Range(700_000, 691_000, 709_000));
  }
}
