package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.quantity.Span;
import towerledger.thermal.ResponseTable;

class MeterWaterTest {

  /** A reader that sends a photo twice stamps two readings half a second apart. */
  @Test
  void twoReadingsWithinOneSecondDoNotSpoilTheMonth() {
    SystemFacts facts = new MadeUpSystem().facts();
    Instant start = facts.weather().start();
    SystemHours modelled =
        HourlyModel.of(
            facts,
            start,
            MadeUpSystem.DAYS * 24,
            new TowerTables(ResponseTable::of),
            new ArrayList<>());
    QuarterDays blocks = QuarterDays.of(modelled, MadeUpSystem.ZONE);
    Instant read = start.plus(Duration.ofDays(10));
    Instant again = read.plusMillis(500);
    Instant end = start.plus(Duration.ofDays(20));
    MeterFacts meter =
        new MeterFacts(
            "M",
            MeterFacts.Role.MAKEUP,
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty(),
            List.of(
                RegisterVolume.read(Span.of(start, read), 5_000),
                RegisterVolume.read(Span.of(read, again), 0),
                RegisterVolume.read(Span.of(again, end), 7_000)),
            IntervalVolumes.none());

    MeteredWater.Amount amount =
        MeterWater.of(meter, blocks, 1e9)
            .between(0, blocks.position(end), new double[blocks.count + 1]);

    assertThat(amount.litres()).isCloseTo(12_000, within(0.01));
    assertThat(amount.deviation()).isFinite();
    assertThat(amount.covered()).isCloseTo(1, within(1e-9));
  }
}
