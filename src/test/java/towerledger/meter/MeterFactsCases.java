package towerledger.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.SignedIn;
import towerledger.account.Actor;
import towerledger.account.EmptyValues;
import towerledger.account.Outcome;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.quantity.Span;
import towerledger.query.Questions;
import towerledger.site.Meter;
import towerledger.site.MeterDetails;
import towerledger.site.MeterRole;
import towerledger.site.SiteDetails;
import towerledger.site.Sites;
import towerledger.site.SystemDetails;

/** Readings entered and read back: roll-over, corrections, marks, both kinds of record. */
abstract class MeterFactsCases {

  private static final Actor TEST = Actor.system("test");
  private static final Instant JULY = Instant.parse("2025-07-01T12:00:00Z");
  private static final double GALLON = 3.785411784;

  @Autowired Sites sites;
  @Autowired ReadingEntry entry;
  @Autowired MeterRecords records;
  @Autowired Questions questions;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;

  @Test
  void readingsBecomeVolumesAcrossARollOver() {
    Meter meter = meter("MFA");
    enter(meter, JULY, "999500");
    enter(meter, JULY.plus(Duration.ofDays(7)), "500");

    MeterRecord record = records.getRecord(meter, Span.of(JULY, JULY.plus(Duration.ofDays(30))));

    assertThat(record.register().volumes()).hasSize(1);
    assertThat(record.register().volumes().get(0).litres()).isCloseTo(1000 * GALLON, within(1e-6));
    assertThat(record.remarks()).extracting(Remark::kind).contains(Remark.Kind.ROLLED_OVER);
    assertThat(record.facts().registers()).hasSize(1);
  }

  @Test
  void readingOfTheSameInstantCorrectsAndTheOlderIsKept() {
    Meter meter = meter("MFB");

    assertThat(enter(meter, JULY, "100").outcome()).isEqualTo(Outcome.ADDED);
    assertThat(enter(meter, JULY, "100.0").outcome()).isEqualTo(Outcome.UNCHANGED);
    assertThat(enter(meter, JULY, "105").outcome()).isEqualTo(Outcome.CHANGED);

    assertThat(records.listReadings(meter, Span.of(JULY.minusSeconds(1), JULY.plusSeconds(1))))
        .singleElement()
        .extracting(RegisterReading::register)
        .isEqualTo(new BigDecimal("105"));
    assertThat(
            jdbc.sql("SELECT register FROM meter_register_correction WHERE meter_id = ?")
                .param(meter.id())
                .query(BigDecimal.class)
                .list())
        .singleElement()
        .satisfies(old -> assertThat(old).isEqualByComparingTo("100"));
  }

  @Test
  void readingOutsideWhatIsExpectedIsTakenAndMarked() {
    Meter meter = meter("MFC");
    enter(meter, JULY, "100");
    Instant later = JULY.plus(Duration.ofDays(1));

    ReadingEntry.Entered entered =
        entry.enter(
            TEST,
            meter,
            RegisterReading.actual(later, new BigDecimal("900")),
            null,
            Optional.of(new ExpectedVolume(10 * GALLON, 50 * GALLON)));

    assertThat(entered.outcome()).isEqualTo(Outcome.ADDED);
    assertThat(entered.remarks()).extracting(Remark::kind).contains(Remark.Kind.NOT_EXPECTED);
    assertThat(records.findLastBefore(meter, later.plusSeconds(1)).orElseThrow().implausible())
        .isTrue();
  }

  @Test
  void readingAsExpectedOfAMeterWhoseInstallationIsKnownIsNotMarked() {
    Meter meter = meter("MFI", JULY.minus(Duration.ofDays(1000)), BigDecimal.ZERO);
    enter(meter, JULY, "80000");

    ReadingEntry.Entered entered =
        entry.enter(
            TEST,
            meter,
            RegisterReading.actual(JULY.plus(Duration.ofDays(1)), new BigDecimal("80030")),
            null,
            Optional.of(new ExpectedVolume(10 * GALLON, 50 * GALLON)));

    assertThat(entered.remarks()).isEmpty();
  }

  @Test
  void impossibleReadingsAreRefusedWithTheRemedy() {
    Meter meter = meter("MFD");

    assertThatThrownBy(() -> enter(meter, JULY, "1000000"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("digits");
    assertThatThrownBy(() -> enter(meter, Instant.parse("1899-01-01T00:00:00Z"), "1"))
        .hasMessageContaining("check the date");
  }

  @Test
  void intervalsThatDisagreeWithTheRegisterAreReported() {
    Meter meter = meter("MFE");
    enter(meter, JULY, "0");
    enter(meter, JULY.plus(Duration.ofHours(4)), "400");
    // given: the register tells 400 gal in four hours, the intervals 200
    for (int hour = 0; hour < 4; hour++) {
      interval(meter, JULY.plus(Duration.ofHours(hour)), 60, 50 * GALLON);
    }

    MeterRecord record = records.getRecord(meter, Span.of(JULY, JULY.plus(Duration.ofDays(1))));

    assertThat(record.compared()).singleElement().matches(KindsCompared::disagree);
    assertThat(record.remarks())
        .filteredOn(remark -> remark.kind() == Remark.Kind.KINDS_DISAGREE)
        .singleElement()
        .satisfies(remark -> assertThat(remark.words()).contains("wrong multiplier"));
  }

  @Test
  void intervalOfABillingPeriodIsHandedOverAsAVolumeBetweenReadings() {
    Meter meter = meter("MFF");
    interval(meter, JULY, 43_200, 9000);
    interval(meter, JULY.plus(Duration.ofDays(30)), 60, 12);

    var facts =
        records
            .listFacts(
                List.of(meter.systemId().orElseThrow()),
                Map.of(),
                Span.of(JULY, JULY.plusSeconds(1)))
            .values()
            .iterator()
            .next()
            .get(0);

    assertThat(facts.registers())
        .singleElement()
        .satisfies(volume -> assertThat(volume.litres()).isEqualTo(9000));
    assertThat(facts.intervals().size()).isLessThanOrEqualTo(1);
    assertThat(records.listLongVolumes(meter, Span.of(JULY, JULY.plusSeconds(1))))
        .isEqualTo(facts.registers());
    assertThat(hours(meter, Span.of(JULY, JULY.plus(Duration.ofDays(31)))))
        .extractingByKey(meter.id())
        .satisfies(hours -> assertThat(hours.size()).isEqualTo(1))
        .satisfies(hours -> assertThat(hours.litres(0)).isEqualTo(12));
    assertThat(hours(meter, Span.of(JULY, JULY.plusSeconds(1)))).isEmpty();
    assertThat(questions.answer(MeterRecords.hours(List.of(), Span.of(JULY, JULY.plusSeconds(1)))))
        .isEmpty();
  }

  private Map<Long, IntervalVolumes> hours(Meter meter, Span span) {
    return questions.answer(MeterRecords.hours(List.of(meter), span));
  }

  /** By hand: 2 in. turbine, 4 gpm least: an hour at 40 gal leaves up to 240 − 40 uncounted. */
  @Test
  void waterBelowTheLeastFlowIsBoundedAndSaid() {
    Meter meter = meter("MFH");
    jdbc.sql("UPDATE site_meter SET size_mm = 50.8, type = 'turbine' WHERE id = ?")
        .param(meter.id())
        .update();
    interval(meter, JULY, 60, 40 * GALLON);

    MeterRecord record =
        records.getRecord(sites.getMeter("MFH-M"), Span.of(JULY, JULY.plus(Duration.ofDays(1))));

    assertThat(record.uncountedLitres().orElseThrow()).isCloseTo(200 * GALLON, within(0.001));
    assertThat(record.remarks())
        .filteredOn(remark -> remark.kind() == Remark.Kind.LOW_FLOW)
        .singleElement()
        .satisfies(remark -> assertThat(remark.words()).contains("up to 757 L"));
  }

  @Test
  void intervalsAfterTheMeterWasTakenOutAreLeftOutAndSaid() {
    Meter meter = meter("MFG");
    interval(meter, JULY, 60, 10);
    interval(meter, JULY.plus(Duration.ofHours(5)), 60, 99);
    jdbc.sql("UPDATE site_meter SET removed_at = ? WHERE id = ?")
        .param(OffsetDateTime.ofInstant(JULY.plus(Duration.ofHours(2)), ZoneOffset.UTC))
        .param(meter.id())
        .update();

    MeterRecord record =
        records.getRecord(sites.getMeter("MFG-M"), Span.of(JULY, JULY.plus(Duration.ofDays(1))));

    assertThat(record.intervals().size()).isEqualTo(1);
    assertThat(record.remarks())
        .filteredOn(remark -> remark.kind() == Remark.Kind.OUTSIDE_LIFE)
        .singleElement()
        .satisfies(remark -> assertThat(remark.words()).contains("took its place"));
  }

  private ReadingEntry.Entered enter(Meter meter, Instant at, String register) {
    return entry.enter(
        TEST, meter, RegisterReading.actual(at, new BigDecimal(register)), null, Optional.empty());
  }

  private void interval(Meter meter, Instant start, int minutes, double litres) {
    jdbc.sql("INSERT INTO meter_interval_volume VALUES (?, ?, ?, ?, ?)")
        .param(sites.findSite(meter.siteId()).orElseThrow().customerId())
        .param(meter.id())
        .param(OffsetDateTime.ofInstant(start, ZoneOffset.UTC))
        .param(minutes)
        .param(litres)
        .update();
  }

  private Meter meter(String code) {
    return meter(code, null, null);
  }

  private Meter meter(
      String code, @Nullable Instant installedAt, @Nullable BigDecimal firstRegister) {
    long customer = signedIn.customerId(code);
    sites.putSite(
        TEST,
        code + "-S",
        customer,
        new SiteDetails("Site", "America/Chicago", null, null, null, null, null, null, null),
        EmptyValues.KEEP);
    sites.putSystem(
        TEST, code + "-Y", code + "-S", SystemDetails.named("System"), EmptyValues.KEEP);
    sites.putMeter(
        TEST,
        code + "-M",
        code + "-Y",
        null,
        new MeterDetails(
            MeterRole.MAKEUP,
            "gal",
            BigDecimal.ONE,
            6,
            null,
            null,
            null,
            null,
            null,
            null,
            installedAt,
            firstRegister,
            null,
            null),
        EmptyValues.KEEP);
    return sites.getMeter(code + "-M");
  }
}
