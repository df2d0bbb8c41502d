package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalTime;
import java.time.Month;
import java.time.ZonedDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemAttributes.BuildingUse;
import towerledger.balance.facts.SystemAttributes.HeatSource;
import towerledger.balance.facts.SystemFacts;
import towerledger.quantity.Span;

/** Coarse evidence is spread over its hours by the load shape and loses nothing on the way. */
class HeatSpreadTest {

  private static final OptionalDouble UNKNOWN = OptionalDouble.empty();

  /** A ton of refrigeration in kW: 12,000 Btu/h by NIST SP 811, appendix B.8. */
  private static final double TON_KW = 3.516853;

  private static final double GJ = 1e9;
  private static final SystemFacts MADE_UP = new MadeUpSystem().facts();

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void everyJouleOfAMonthIsFoundInItsHours(long seed) {
    var random = new Random(seed);
    for (int month = 0; month < 12; month++) {
      double heat = GJ * Math.exp(8 * random.nextDouble());
      Span span = Span.of(MadeUpSystem.at(30 * month), MadeUpSystem.at(30 * month + 30));
      double[] load = spread(facts(office(), metered(span, heat)));
      assertThat(joules(load, 24 * 30 * month, 24 * 30 * (month + 1)))
          .as("seed %d, month %d", seed, month)
          .isCloseTo(heat, within(1e-9 * heat));
    }
  }

  @Test
  void heatFollowsTheShapeOfTheLoad() {
    Span june = Span.of(MadeUpSystem.at(150), MadeUpSystem.at(180));
    double[] shape = shape(facts(office()));
    double[] load = spread(facts(office(), metered(june, 800 * GJ)));
    int atWork = 24 * 153 + 15;
    int atNight = 24 * 153 + 2;
    assertThat(local(atWork).getDayOfWeek()).isEqualTo(DayOfWeek.TUESDAY);
    assertThat(load[atNight]).as("an office at night").isZero();
    assertThat(load[atWork] / load[atWork + 24])
        .isCloseTo(shape[atWork] / shape[atWork + 24], within(1e-9));
  }

  /** A plant that carries half of what its use suggests does so too while its meter is silent. */
  @Test
  void gapCarriesOnWhatWasMeasuredBeforeIt() {
    int gap = 24 * 160;
    int again = 24 * 170;
    double[] shape = shape(facts(office()));
    HeatEvidence before =
        metered(
            Span.of(MadeUpSystem.at(150), MadeUpSystem.at(160)),
            0.5 * joules(shape, 24 * 150, gap));
    HeatEvidence after =
        metered(
            Span.of(MadeUpSystem.at(170), MadeUpSystem.at(180)),
            2 * joules(shape, again, 24 * 180));
    byte[] grade = new byte[24 * MadeUpSystem.DAYS];

    double[] load = spread(facts(office(), before, after), grade);

    assertThat(joules(load, gap, again))
        .isCloseTo(0.5 * joules(shape, gap, again), within(0.005 * joules(shape, gap, again)));
    assertThat(grade[gap + 12]).isEqualTo((byte) EvidenceGrade.D.ordinal());
    assertThat(joules(load, 0, 24 * 150))
        .as("before anything was measured")
        .isCloseTo(joules(shape, 0, 24 * 150), within(1.0));
  }

  @Test
  void betterEvidenceTakesThePlaceOfWorse() {
    Span month = Span.of(MadeUpSystem.at(150), MadeUpSystem.at(180));
    Span day = Span.of(MadeUpSystem.at(160), MadeUpSystem.at(161));
    SystemFacts facts =
        facts(
            office(),
            metered(day, 40 * GJ),
            new HeatEvidence.RunningHours(month, 500, 0.6, UNKNOWN));
    byte[] grade = new byte[24 * MadeUpSystem.DAYS];
    double[] load = spread(facts, grade);
    assertThat(joules(load, 24 * 160, 24 * 161)).isCloseTo(40 * GJ, within(1.0));
    assertThat(grade[24 * 160 + 12]).isEqualTo((byte) EvidenceGrade.A.ordinal());
    assertThat(grade[24 * 159 + 12]).isEqualTo((byte) EvidenceGrade.C.ordinal());
    assertThat(grade[24 * 149 + 12]).isEqualTo((byte) EvidenceGrade.D.ordinal());
  }

  /** Spread evenly over the hours that run, a month's heat is the same heat. */
  @Test
  void evenLoadKeepsTheTotalOfWhatWasMeasured() {
    Span month = Span.of(MadeUpSystem.at(150), MadeUpSystem.at(180));
    byte[] grade = new byte[24 * MadeUpSystem.DAYS];
    double[] even = new double[grade.length];
    double[] load = spread(facts(office(), metered(month, 800 * GJ)), grade, even);
    double sum = 0;
    for (int h = 24 * 150; h < 24 * 180; h++) {
      assertThat(even[h]).as("hour %d", h).isEqualTo(even[24 * 150]);
      sum += load[h] > 0 ? even[h] * MadeUpSystem.NOMINAL_W * 3600 : 0;
    }
    assertThat(sum).isCloseTo(800 * GJ, within(1e-6 * 800 * GJ));
    assertThat(even[24 * 149]).as("before anything was measured").isNaN();
    assertThat(even[24 * 185]).as("after it, as it was").isBetween(0.5 * even[24 * 151], 2.0);
  }

  @Test
  void chillersShedTheirElectricityToo() {
    Span month = Span.of(MadeUpSystem.at(150), MadeUpSystem.at(180));
    double cooling = 500 * GJ;
    double electric =
        total(
            HeatSource.ELECTRIC_CHILLER,
            new HeatEvidence.ChilledWater(month, cooling, OptionalDouble.of(0.7), UNKNOWN));
    assertThat(electric).isCloseTo(cooling * (1 + 0.7 / TON_KW), within(1e-6 * cooling));
    double fromElectricity =
        total(
            HeatSource.ELECTRIC_CHILLER,
            new HeatEvidence.ChillerElectricity(month, cooling * 0.7 / TON_KW, 0.7, UNKNOWN));
    assertThat(fromElectricity).as("the same chiller").isCloseTo(electric, within(1e-6 * cooling));
    double absorption =
        total(
            HeatSource.ABSORPTION_CHILLER,
            new HeatEvidence.ChilledWater(month, cooling, UNKNOWN, UNKNOWN));
    assertThat(absorption / cooling).as("driving heat comes on top").isBetween(1.8, 2.5);
    double process =
        total(HeatSource.PROCESS, new HeatEvidence.ChilledWater(month, cooling, UNKNOWN, UNKNOWN));
    assertThat(process).as("no chiller, nothing on top").isCloseTo(cooling, within(1e-6 * cooling));
  }

  @Test
  void aChillersMeterIsBlindWhileTheEconomizerCools() {
    Span january = Span.of(MadeUpSystem.at(0), MadeUpSystem.at(31));
    var attributes = attributes(HeatSource.ELECTRIC_CHILLER, BuildingUse.HOSPITAL, true, Set.of());
    SystemFacts facts =
        facts(attributes, new HeatEvidence.ChillerElectricity(january, 10 * GJ, 0.6, UNKNOWN));
    byte[] grade = new byte[24 * MadeUpSystem.DAYS];
    double[] load = spread(facts, grade);
    boolean[] free = HeatSpread.freeHours(facts, MadeUpSystem.at(0), load.length);
    int blind = 0;
    double seen = 0;
    for (int h = 0; h < 24 * 31; h++) {
      if (free[h]) {
        blind++;
        assertThat(grade[h]).isEqualTo((byte) EvidenceGrade.D.ordinal());
        assertThat(load[h]).as("the tower works all the same").isPositive();
      } else {
        seen += load[h];
      }
    }
    assertThat(blind).as("cold hours of January").isGreaterThan(200);
    double heat = 10 * GJ * (1 + TON_KW / 0.6);
    assertThat(seen * MadeUpSystem.NOMINAL_W * 3600).isCloseTo(heat, within(1e-6 * heat));
  }

  @Test
  void aTowerLaidUpRejectsNothingByItsShape() {
    SystemFacts facts =
        facts(attributes(null, BuildingUse.SCHOOL, false, Set.of(Month.JANUARY, Month.FEBRUARY)));
    double[] load = spread(facts);
    assertThat(joules(load, 0, 24 * 59)).isZero();
    assertThat(joules(load, 24 * 150, 24 * 180)).isPositive();
  }

  private static double total(HeatSource source, HeatEvidence evidence) {
    double[] load = spread(facts(attributes(source, BuildingUse.OTHER, false, Set.of()), evidence));
    return joules(load, 24 * 150, 24 * 180);
  }

  private static HeatEvidence metered(Span span, double joules) {
    return new HeatEvidence.HeatRejected(span, joules, UNKNOWN);
  }

  private static SystemAttributes office() {
    return attributes(null, BuildingUse.OFFICE, false, Set.of());
  }

  private static SystemAttributes attributes(
      @org.jspecify.annotations.Nullable HeatSource source,
      BuildingUse use,
      boolean economizer,
      Set<Month> idle) {
    return new SystemAttributes(
        SystemAttributes.Kind.OPEN,
        UNKNOWN,
        Optional.ofNullable(source),
        economizer,
        Optional.of(use),
        Optional.of(LocalTime.of(6, 0)),
        Optional.of(LocalTime.of(18, 0)),
        Set.of(),
        idle);
  }

  private static SystemFacts facts(SystemAttributes attributes, HeatEvidence... heat) {
    return new SystemFacts(
        "SPREAD",
        MADE_UP.zone(),
        attributes,
        MADE_UP.towers(),
        MADE_UP.settings(),
        MADE_UP.weather(),
        List.of(heat),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  private static double[] shape(SystemFacts facts) {
    return LoadShape.of(
        facts.attributes(),
        facts.zone(),
        facts.weather(),
        MadeUpSystem.at(0),
        24 * MadeUpSystem.DAYS);
  }

  private static double[] spread(SystemFacts facts) {
    return spread(facts, new byte[24 * MadeUpSystem.DAYS]);
  }

  private static double[] spread(SystemFacts facts, byte[] grade) {
    return spread(facts, grade, new double[grade.length]);
  }

  private static double[] spread(SystemFacts facts, byte[] grade, double[] even) {
    double[] shape = shape(facts);
    return HeatSpread.spread(
        facts,
        MadeUpSystem.at(0),
        shape,
        MadeUpSystem.NOMINAL_W,
        HeatSpread.freeHours(facts, MadeUpSystem.at(0), shape.length),
        grade,
        even);
  }

  private static double joules(double[] load, int first, int last) {
    return Arrays.stream(load, first, last).sum() * MadeUpSystem.NOMINAL_W * 3600;
  }

  private static ZonedDateTime local(int hour) {
    return MadeUpSystem.at(0).plus(Duration.ofHours(hour)).atZone(MadeUpSystem.ZONE);
  }
}
