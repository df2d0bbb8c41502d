package towerledger.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Currency;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class UnitsTest {

  /**
   * NIST SP 811 (2008), Appendix B.8, factors as printed there (seven figures); from memory, the
   * document was not at hand. Tolerance is half a unit of the last printed figure.
   */
  @ParameterizedTest(name = "{0}")
  @CsvFileSource(resources = "/reference/nist_sp811_b8.csv", numLinesToSkip = 3)
  void meetsThePrintedFactor(String conversion, double printed) {
    double actual =
        switch (conversion) {
          case "foot to metre" -> Units.METRES_PER_FOOT;
          case "inch to millimetre" -> Units.MILLIMETRES_PER_INCH;
          case "US gallon to litre" -> Units.LITRES_PER_US_GALLON;
          case "imperial gallon to litre" -> Units.LITRES_PER_IMPERIAL_GALLON;
          case "cubic foot to litre" -> Units.LITRES_PER_CUBIC_FOOT;
          case "psi to pascal" -> Pressure.ofPsi(1).pascals();
          case "inch of mercury (conventional) to pascal" ->
              Pressure.ofInchesOfMercury(1).pascals();
          case "Btu(IT) to joule" -> Heat.ofMillionBtu(1e-6).joules();
          case "kilowatt hour to joule" -> Heat.ofKilowattHours(1).joules();
          case "ton of refrigeration to watt" -> Power.ofTons(1).watts();
          case "horsepower (550 ft lbf/s) to watt" -> Power.ofHorsepower(1).watts();
          case "US gallon per minute to litre per second" ->
              Flow.ofUsGallonsPerMinute(1).litresPerSecond();
          default -> throw new IllegalArgumentException(conversion);
        };
    double halfUnitOfLastFigure = 0.5 * Math.pow(10, Math.floor(Math.log10(printed)) - 6);
    assertThat(actual).isCloseTo(printed, within(halfUnitOfLastFigure * 1.001));
  }

  @Test
  void fahrenheitMeetsTheFixedPoints() {
    assertThat(Temperature.ofFahrenheit(32).celsius()).isZero();
    assertThat(Temperature.ofFahrenheit(212).celsius()).isCloseTo(100, within(1e-12));
    assertThat(Temperature.ofCelsius(-40).fahrenheit()).isCloseTo(-40, within(1e-12));
  }

  /** The interchange contract: 1 ccf = 748.052 gal. */
  @Test
  void hundredCubicFeetAreThePrintedGallons() {
    assertThat(Volume.of(1, VolumeUnit.HUNDRED_CUBIC_FEET).usGallons())
        .isCloseTo(748.052, within(0.0005));
  }

  /** Kv = 0.865 Cv as valve makers print it; from memory. */
  @Test
  void valveCoefficientMeetsTheTradeFactor() {
    assertThat(Units.KV_PER_CV).isCloseTo(0.865, within(0.0005));
  }

  @Test
  void aTowerTonRejectsAQuarterMoreThanARefrigerationTon() {
    assertThat(Power.ofTowerTons(100).tons()).isCloseTo(125, within(1e-9));
  }

  @Test
  void refusesWhatIsNoNumber() {
    assertThatThrownBy(() -> Volume.ofLitres(Double.NaN)).hasMessageContaining("volume of NaN L");
    assertThatThrownBy(() -> Temperature.ofCelsius(-274))
        .hasMessageContaining("below its limit of -273.15 °C");
    assertThatThrownBy(() -> VolumeUnit.ofCode("bucket")).hasMessageContaining("imp_gal");
  }

  @Test
  void aMonthWithASpringForwardIsAnHourShorter() {
    var zone = ZoneId.of("America/New_York");
    assertThat(CalendarMonth.of(YearMonth.of(2026, 3), zone).span().hours()).isEqualTo(743);
    assertThat(CalendarMonth.of(YearMonth.of(2026, 11), zone).span().hours()).isEqualTo(721);
  }

  @Test
  void spansAreHalfOpen() {
    var span =
        Span.of(Instant.parse("2026-01-01T00:00:00Z"), Instant.parse("2026-02-01T00:00:00Z"));
    assertThat(span.contains(span.startInclusive())).isTrue();
    assertThat(span.contains(span.endExclusive())).isFalse();
    assertThatThrownBy(() -> Span.of(span.endExclusive(), span.startInclusive()))
        .hasMessageContaining("not after its start");
  }

  @Test
  void moneyRoundsOnceAndHalfUp() {
    var usd = Currency.getInstance("USD");
    assertThat(Money.of("10.125", "USD").rounded()).isEqualTo(Money.of("10.13", "USD"));
    assertThat(Money.zero(usd).plus(Money.of("1.10", "USD")).amount()).isEqualByComparingTo("1.1");
    assertThatThrownBy(() -> Money.of("1", "USD").plus(Money.of("1", "EUR")))
        .hasMessageContaining("cannot add EUR to USD");
  }
}
