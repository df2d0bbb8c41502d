package towerledger.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.VolumeUnit;

/**
 * Register arithmetic against hand-worked cases: what a meter reader would write on the card. Unit
 * factors are those of NIST SP 811 (B.8).
 */
class RegisterArithmeticTest {

  private static final Instant JAN = Instant.parse("2026-01-01T17:00:00Z");
  private static final Instant FEB = Instant.parse("2026-02-01T17:00:00Z");
  private static final Instant MAR = Instant.parse("2026-03-01T17:00:00Z");
  private static final Instant APR = Instant.parse("2026-04-01T16:00:00Z");

  private static RegisterReading read(Instant at, String register) {
    return RegisterReading.actual(at, new BigDecimal(register));
  }

  private static RegisterReading estimate(Instant at, String register) {
    return new RegisterReading(
        at, new BigDecimal(register), RegisterReading.Kind.ESTIMATED, Duration.ZERO, false);
  }

  private static RegisterReading unexpected(Instant at, String register) {
    return new RegisterReading(
        at, new BigDecimal(register), RegisterReading.Kind.ACTUAL, Duration.ZERO, true);
  }

  private static Register gallons() {
    return Register.ofCounts("M1", VolumeUnit.US_GALLON.litres());
  }

  private static Register gallons(int digits, OptionalDouble greatestFlow) {
    return new Register(
        "M1",
        VolumeUnit.US_GALLON.litres(),
        OptionalInt.of(digits),
        greatestFlow,
        Register.Mark.UNKNOWN,
        Register.Mark.UNKNOWN);
  }

  private static List<Double> usGallons(MeasuredRegister measured) {
    return measured.volumes().stream()
        .map(v -> v.litres() / VolumeUnit.US_GALLON.litres())
        .map(v -> Math.round(v * 1e6) / 1e6)
        .toList();
  }

  private static List<Remark.Kind> kinds(MeasuredRegister measured) {
    return measured.remarks().stream().map(Remark::kind).toList();
  }

  @Test
  void subtractsConsecutiveReadingsWhateverTheirOrder() {
    var readings =
        new ArrayList<>(List.of(read(JAN, "1000"), read(FEB, "1250"), read(MAR, "1250.5")));
    Collections.shuffle(readings, new Random(7));

    var measured = RegisterArithmetic.measure(gallons(), readings);

    assertThat(usGallons(measured)).containsExactly(250.0, 0.5);
    assertThat(measured.remarks()).isEmpty();
    assertThat(measured.volumes().get(0).span().startInclusive()).isEqualTo(JAN);
    assertThat(measured.volumes().get(0).span().endExclusive()).isEqualTo(FEB);
  }

  @ParameterizedTest
  @CsvSource({
    // unit, multiplier, counts, litres by NIST SP 811
    "gal, 1, 100, 378.5411784",
    "kgal, 1, 2, 7570.823568",
    "imp_gal, 10, 3, 136.3827",
    "ft3, 1, 10, 283.16846592",
    "ccf, 1, 1, 2831.6846592",
    "l, 10, 7, 70",
    "m3, 0.1, 5, 500",
    "gal, 25, 40, 3785.411784" // pulses of 25 gallons
  })
  void appliesUnitAndMultiplier(String unit, String multiplier, int counts, double litres) {
    var register =
        Register.ofCounts(
            "M1", new BigDecimal(multiplier).doubleValue() * VolumeUnit.ofCode(unit).litres());

    var measured =
        RegisterArithmetic.measure(
            register, List.of(read(JAN, "500"), read(FEB, String.valueOf(500 + counts))));

    assertThat(measured.volumes().get(0).litres()).isCloseTo(litres, within(litres * 1e-9));
  }

  @Test
  void rollsOverByItsDigits() {
    var measured =
        RegisterArithmetic.measure(
            gallons(6, OptionalDouble.empty()), List.of(read(JAN, "999950"), read(FEB, "150")));

    assertThat(usGallons(measured)).containsExactly(200.0);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.ROLLED_OVER);
  }

  @Test
  void rollsOverThroughTheFirstAndLastNumber() {
    var measured =
        RegisterArithmetic.measure(
            gallons(4, OptionalDouble.empty()), List.of(read(JAN, "9999.9"), read(FEB, "0")));

    assertThat(usGallons(measured)).containsExactly(0.1);
  }

  @Test
  void refusesARollOverThatCouldNotHavePassedTheMeter() {
    // A small step back of six digits would mean 999,990 gallons: more than half the register.
    var measured =
        RegisterArithmetic.measure(
            gallons(6, OptionalDouble.empty()),
            List.of(read(JAN, "400"), read(FEB, "500"), read(MAR, "490"), read(APR, "600")));

    assertThat(usGallons(measured)).containsExactly(100.0, 110.0);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.RAN_BACKWARDS);
    assertThat(measured.remarks().get(0).words()).contains("500", "490", "left open", "correct");
  }

  @Test
  void believesALargeRollOverWhenTheMeterCouldPassIt() {
    // 60 US gpm for 31 days is 2.7 million gallons; 700,000 of a million fit.
    double sixtyGpm = 60 * VolumeUnit.US_GALLON.litres() / 60;

    var large =
        RegisterArithmetic.measure(
            gallons(6, OptionalDouble.of(sixtyGpm)),
            List.of(read(JAN, "500000"), read(FEB, "200000")));
    var tooLarge =
        RegisterArithmetic.measure(
            gallons(8, OptionalDouble.of(sixtyGpm)),
            List.of(read(JAN, "50000000"), read(FEB, "20000000")));

    assertThat(usGallons(large)).containsExactly(700_000.0);
    assertThat(tooLarge.volumes()).isEmpty();
    assertThat(kinds(tooLarge)).containsExactly(Remark.Kind.RAN_BACKWARDS);
  }

  @Test
  void leavesTheVolumeOpenWhenTheRegisterRunsBackwardsWithoutKnownDigits() {
    var measured =
        RegisterArithmetic.measure(
            gallons(),
            List.of(read(JAN, "900"), read(FEB, "1000"), read(MAR, "40"), read(APR, "90")));

    assertThat(usGallons(measured)).containsExactly(100.0, 50.0);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.RAN_BACKWARDS);
    assertThat(measured.remarks().get(0).words()).contains("register_digits");
  }

  @Test
  void leavesOutAReadingMarkedAsUnexpectedThatItsNeighboursContradict() {
    var measured =
        RegisterArithmetic.measure(
            gallons(7, OptionalDouble.empty()),
            List.of(read(JAN, "1000"), unexpected(FEB, "11100"), read(MAR, "1210")));

    assertThat(usGallons(measured)).containsExactly(210.0);
    assertThat(measured.volumes().get(0).span().endExclusive()).isEqualTo(MAR);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.LEFT_OUT);
  }

  @Test
  void leavesOutAnUnexpectedLowReading() {
    var measured =
        RegisterArithmetic.measure(
            gallons(), List.of(read(JAN, "1000"), unexpected(FEB, "110"), read(MAR, "1210")));

    assertThat(usGallons(measured)).containsExactly(210.0);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.LEFT_OUT);
  }

  @Test
  void usesAnUnexpectedReadingThatNothingContradicts() {
    var measured =
        RegisterArithmetic.measure(
            gallons(), List.of(read(JAN, "1000"), unexpected(FEB, "9000"), read(MAR, "9100")));

    assertThat(usGallons(measured)).containsExactly(8000.0, 100.0);
    assertThat(measured.remarks()).isEmpty();
  }

  @Test
  void joinsTheLivesOfExchangedMetersByLastAndFirstRegister() {
    Instant exchanged = Instant.parse("2026-02-10T15:00:00Z");
    var old =
        new Register(
            "OLD",
            1,
            OptionalInt.of(6),
            OptionalDouble.empty(),
            Register.Mark.UNKNOWN,
            Register.Mark.of(exchanged, new BigDecimal("990300")));
    var fresh =
        new Register(
            "NEW",
            1,
            OptionalInt.of(6),
            OptionalDouble.empty(),
            Register.Mark.of(exchanged, new BigDecimal("12")),
            Register.Mark.UNKNOWN);

    var first = RegisterArithmetic.measure(old, List.of(read(JAN, "990000"), read(FEB, "990200")));
    var second = RegisterArithmetic.measure(fresh, List.of(read(MAR, "512"), read(APR, "1512")));

    assertThat(first.volumes()).extracting(RegisterVolume::litres).containsExactly(200.0, 100.0);
    assertThat(first.volumes().get(1).span().endExclusive()).isEqualTo(exchanged);
    assertThat(second.volumes()).extracting(RegisterVolume::litres).containsExactly(500.0, 1000.0);
    assertThat(second.volumes().get(0).span().startInclusive()).isEqualTo(exchanged);
  }

  @Test
  void leavesOutReadingsFromOutsideTheMetersLife() {
    var register =
        new Register(
            "M1",
            1,
            OptionalInt.empty(),
            OptionalDouble.empty(),
            Register.Mark.of(FEB, new BigDecimal("0")),
            Register.Mark.UNKNOWN);

    var measured =
        RegisterArithmetic.measure(register, List.of(read(JAN, "77000"), read(MAR, "300")));

    assertThat(measured.volumes()).extracting(RegisterVolume::litres).containsExactly(300.0);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.OUTSIDE_LIFE);
  }

  @Test
  void saysWhenTheReadingAtTheExchangeDiffersFromTheRegisterNoted() {
    var register =
        new Register(
            "M1",
            1,
            OptionalInt.empty(),
            OptionalDouble.empty(),
            Register.Mark.of(FEB, new BigDecimal("5")),
            Register.Mark.UNKNOWN);

    var measured = RegisterArithmetic.measure(register, List.of(read(FEB, "7"), read(MAR, "300")));

    assertThat(measured.volumes()).extracting(RegisterVolume::litres).containsExactly(293.0);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.ENDS_DIFFER);
  }

  @Test
  void realReadingsReplaceTheEstimatesBetweenThem() {
    var measured =
        RegisterArithmetic.measure(
            gallons(),
            List.of(
                read(JAN, "1000"), estimate(FEB, "1800"), read(MAR, "1500"), read(APR, "1600")));

    assertThat(usGallons(measured)).containsExactly(500.0, 100.0);
    assertThat(measured.volumes()).noneMatch(RegisterVolume::estimated);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.ESTIMATE_REPLACED);
  }

  @Test
  void anEstimateStandsMarkedUntilARealReadingComes() {
    var measured =
        RegisterArithmetic.measure(gallons(), List.of(read(JAN, "1000"), estimate(FEB, "1800")));

    assertThat(usGallons(measured)).containsExactly(800.0);
    assertThat(measured.volumes().get(0).estimated()).isTrue();
  }

  @Test
  void anEstimateAheadOfTheRealReadingGivesWay() {
    var measured =
        RegisterArithmetic.measure(
            gallons(), List.of(estimate(JAN, "2000"), read(FEB, "1500"), read(MAR, "1600")));

    assertThat(usGallons(measured)).containsExactly(100.0);
    assertThat(kinds(measured)).containsExactly(Remark.Kind.LEFT_OUT);
  }

  @Test
  void bareDatesCarryTheirTwelveHours() {
    var noon =
        new RegisterReading(
            JAN, new BigDecimal("10"), RegisterReading.Kind.ACTUAL, Duration.ofHours(12), false);

    var measured = RegisterArithmetic.measure(gallons(), List.of(noon, read(FEB, "20")));

    assertThat(measured.volumes().get(0).startWithin()).isEqualTo(Duration.ofHours(12));
    assertThat(measured.volumes().get(0).endWithin()).isEqualTo(Duration.ZERO);
  }

  @Test
  void resolutionFollowsTheStepTheReadingsShow() {
    var whole = List.of(read(JAN, "1000"), read(FEB, "1250"));
    var tenths = List.of(read(JAN, "1000"), read(FEB, "1250.4"));
    var noughts = new ArrayList<RegisterReading>();
    for (int i = 0; i < 6; i++) {
      noughts.add(read(JAN.plus(Duration.ofDays(i)), String.valueOf(12_000 + 300 * i)));
    }

    assertThat(RegisterArithmetic.measure(Register.ofCounts("M", 1), whole).resolutionLitres())
        .hasValue(1);
    assertThat(
            RegisterArithmetic.measure(Register.ofCounts("M", 1), tenths)
                .resolutionLitres()
                .getAsDouble())
        .isCloseTo(0.1, within(1e-12));
    assertThat(RegisterArithmetic.measure(Register.ofCounts("M", 1), noughts).resolutionLitres())
        .hasValue(100);
  }

  @Test
  void noWaterIsInventedOrLostWhateverTheReadings() {
    // A truthful three-digit register that never passes half its range between two readings.
    for (long seed = 0; seed < 300; seed++) {
      var random = new Random(seed);
      var readings = new ArrayList<RegisterReading>();
      long passed = 0;
      long start = random.nextInt(1000);
      long at = JAN.getEpochSecond();
      for (int i = 0; i < 20; i++) {
        readings.add(read(Instant.ofEpochSecond(at), String.valueOf((start + passed) % 1000)));
        at += 3600L * (1 + random.nextInt(200));
        if (i < 19) {
          passed += random.nextInt(500);
        }
      }
      Collections.shuffle(readings, random);

      var measured =
          RegisterArithmetic.measure(
              new Register(
                  "M",
                  1,
                  OptionalInt.of(3),
                  OptionalDouble.empty(),
                  Register.Mark.UNKNOWN,
                  Register.Mark.UNKNOWN),
              readings);

      double sum = measured.volumes().stream().mapToDouble(RegisterVolume::litres).sum();
      assertThat(sum).as("seed %d", seed).isEqualTo(passed);
      assertThat(measured.volumes()).hasSize(19);
    }
  }

  @Test
  void refusesARegisterValueThatTheDigitsCannotShow() {
    assertThatThrownBy(
            () -> gallons(6, OptionalDouble.empty()).requireShowable(new BigDecimal("1234567")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContainingAll("1234567", "6 digits", "M1", "register_digits");
  }

  @Test
  void measuresNothingWithoutTwoReadings() {
    assertThat(RegisterArithmetic.measure(gallons(), List.of()))
        .isEqualTo(MeasuredRegister.nothing());
    assertThat(RegisterArithmetic.measure(gallons(), List.of(read(JAN, "5"))).volumes()).isEmpty();
  }
}
