package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.security.MessageDigest;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.balance.facts.WaterSample;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;

class MonthDigestsTest {

  private static final ZoneId ZONE = ZoneId.of("Europe/Madrid");
  private static final Instant BEGIN = Instant.parse("2025-11-30T00:00:00Z");
  private static final int HOURS = 24 * 65;

  /** Digests stand with revisions: written plainly, record by record, they come out the same. */
  @Test
  void aDigestIsThatOfItsFactsInPlainWords() throws Exception {
    SystemFacts facts = facts();
    MonthDigests.OfSystem digests = new MonthDigests().of(facts);
    List<String> seen = new ArrayList<>();
    for (int month : new int[] {12, 11, 10, 12}) {
      YearMonth name = YearMonth.of(2025, month);
      assertThat(digests.digest(name, "precio 3 €")).isEqualTo(plainly(facts, name, "precio 3 €"));
      seen.add(digests.digest(name, "precio 3 €"));
    }
    assertThat(seen.get(0)).isEqualTo(seen.get(3)).isNotEqualTo(seen.get(1));
    YearMonth january = YearMonth.of(2026, 1);
    assertThat(digests.digest(january, "")).isEqualTo(plainly(facts, january, ""));
  }

  private static SystemFacts facts() {
    List<HeatEvidence> heat = new ArrayList<>();
    heat.add(
        new HeatEvidence.RunningHours(
            Span.of(BEGIN.minus(Duration.ofDays(30)), BEGIN.plus(Duration.ofDays(40))),
            300,
            0.5,
            OptionalDouble.empty()));
    long[] starts = new long[HOURS];
    int[] minutes = new int[HOURS];
    float[] litres = new float[HOURS];
    float[] dry = new float[HOURS];
    for (int h = 0; h < HOURS; h++) {
      Instant at = BEGIN.plus(Duration.ofHours(h));
      heat.add(
          new HeatEvidence.WaterTemperatures(
              Span.of(at, at.plus(Duration.ofHours(1))),
              30 + h % 7 / 10.0,
              25,
              80 + h / 3.0,
              h % 2 == 0 ? OptionalDouble.of(0.03) : OptionalDouble.empty()));
      starts[h] = at.getEpochSecond();
      minutes[h] = 60;
      litres[h] = h % 11;
      dry[h] = h % 13;
    }
    return new SystemFacts(
        "S1",
        ZONE,
        SystemAttributes.openTower(),
        List.of(TowerFacts.ofNominalHeat("Torre del Año", 1e6)),
        List.of(
            OperatingSettings.unknownFrom(BEGIN),
            OperatingSettings.unknownFrom(BEGIN.plus(Duration.ofDays(33)))),
        new WeatherHours(BEGIN, dry, dry, dry, new boolean[HOURS]),
        heat,
        List.of(
            new MeterFacts(
                "M1",
                MeterFacts.Role.MAKEUP,
                Optional.empty(),
                OptionalDouble.of(0.015),
                OptionalDouble.empty(),
                Optional.of(BEGIN.plus(Duration.ofDays(60))),
                Optional.empty(),
                OptionalDouble.of(10),
                List.of(RegisterVolume.read(Span.of(BEGIN, BEGIN.plus(Duration.ofDays(31))), 1000)),
                new IntervalVolumes(starts, minutes, litres))),
        List.of(WaterSample.ofConductivities(BEGIN.plus(Duration.ofDays(9)), 400, 1600)),
        List.of(),
        List.of());
  }

  private static String plainly(SystemFacts facts, YearMonth month, String money) throws Exception {
    Span span = CalendarMonth.of(month, facts.zone()).span();
    var bytes = new ByteArrayOutputStream();
    var out = new DataOutputStream(bytes);
    out.writeUTF(facts.attributes().toString());
    out.writeUTF(facts.towers().toString());
    out.writeUTF(money);
    for (OperatingSettings settings : facts.settings()) {
      if (settings.effectiveFrom().isBefore(span.endExclusive())) {
        out.writeUTF(settings.toString());
      }
    }
    for (HeatEvidence evidence : facts.heat()) {
      if (evidence.span().overlaps(span)) {
        out.writeUTF(evidence.toString());
      }
    }
    for (WaterSample sample : facts.samples()) {
      if (span.contains(sample.takenAt())) {
        out.writeUTF(sample.toString());
      }
    }
    for (MeterFacts meter : facts.meters()) {
      plainly(out, meter, span);
    }
    WeatherHours weather = facts.weather();
    for (int h = 0; h < weather.hours(); h++) {
      if (span.contains(weather.start().plus(Duration.ofHours(h)))) {
        out.writeDouble(weather.dryBulbC(h));
        out.writeDouble(weather.wetBulbC(h));
        out.writeDouble(weather.pressurePa(h));
      }
    }
    return HexFormat.of()
        .formatHex(MessageDigest.getInstance("SHA-256").digest(bytes.toByteArray()));
  }

  private static void plainly(DataOutputStream out, MeterFacts meter, Span span)
      throws IOException {
    out.writeUTF(
        meter.meter()
            + meter.role()
            + meter.type()
            + meter.accuracyFraction()
            + meter.sizeMm()
            + meter.removedAt().filter(at -> at.isBefore(span.endExclusive())));
    for (RegisterVolume volume : meter.registers()) {
      if (volume.span().overlaps(span)) {
        out.writeUTF(volume.toString());
      }
    }
    IntervalVolumes intervals = meter.intervals();
    for (int i = 0; i < intervals.size(); i++) {
      if (span.contains(Instant.ofEpochSecond(intervals.startEpochSecond(i)))) {
        out.writeLong(intervals.startEpochSecond(i));
        out.writeInt(intervals.minutes(i));
        out.writeDouble(intervals.litres(i));
      }
    }
  }
}
