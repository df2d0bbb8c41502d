package towerledger.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.account.UnitPreference;
import towerledger.quantity.Money;
import towerledger.quantity.Pressure;
import towerledger.quantity.Volume;

class FigureTextTest {

  private final FigureText us = FigureText.of(UnitPreference.US, "en");
  private final FigureText si = FigureText.of(UnitPreference.SI, "en");

  /**
   * JCGM 100:2008, 7.2.6: an uncertainty of 27 mΩ turns 10.057 62 Ω into 10.058 Ω. The other rows
   * follow the same rule, worked by hand.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          10.05762 | 10.03062 | 10.08462 | 10.058 ± 0.027
          331234   | 307000   | 355468   | 331,000 ± 24,000
          -1200    | -1650    | -750     | −1,200 ± 450
          12000    | 4000     | 31000    | 12,000 (4,000 … 31,000)
          0.4      | -9.6     | 10.4     | 0 ± 10
          """)
  void showsAsManyDigitsAsTheIntervalAllows(
      double value, double low, double high, String expected) {
    // A figure never parts from its interval at the end of a line.
    assertThat(us.withInterval(value, low, high))
        .isEqualTo(expected.replace(" ± ", "\u00a0±\u00a0"));
  }

  @Test
  void writesVolumesInTheUnitsOfTheReader() {
    Volume makeup = Volume.ofUsGallons(411_870);

    assertThat(us.volume(makeup)).isEqualTo("412,000\u00a0gal");
    // 411 870 US gal × 3.785 411 784 L = 1 559.1 m³
    assertThat(si.volume(makeup)).isEqualTo("1,560\u00a0m³");
    assertThat(si.wholeVolume(makeup)).isEqualTo("1,559.1");
  }

  @Test
  void writesMoneyWithItsInterval() {
    Money loss = Money.of("1238.40", "USD");

    assertThat(us.estimate(loss, Money.of("930", "USD"), Money.of("1546.8", "USD")))
        .isEqualTo("$1,240\u00a0±\u00a0310");
    assertThat(us.exactMoney(loss)).isEqualTo("$1,238.40");
    assertThat(us.money(Money.of("5", "JPY"))).isEqualTo("¥5");
  }

  @Test
  void roundsAnEstimateWithoutItsIntervalAsBesideIt() {
    assertThat(us.about(Volume.ofUsGallons(93_890), Volume.ofUsGallons(14_700)))
        .isEqualTo("94,000\u00a0gal");
    assertThat(us.about(Volume.ofUsGallons(93_890), Volume.ofUsGallons(0)))
        .isEqualTo("93,900\u00a0gal");
    assertThat(us.about(Money.of("1054.20", "USD"), 171)).isEqualTo("$1,050");
    assertThat(us.about(Money.of("1054.20", "USD"), 0)).isEqualTo("$1,054");
  }

  @Test
  void namesTheClockOfWhatDidNotHappenAtTheSite() {
    Instant written = Instant.parse("2026-11-27T11:19:00Z");

    assertThat(us.stamp(written, ZoneId.of("America/Chicago"))).endsWith("\u00a0CST");
  }

  @Test
  void neverClaimsCertainty() {
    assertThat(us.odds(0.9996)).isEqualTo(">\u00a099\u00a0%");
    assertThat(us.odds(0.0004)).isEqualTo("<\u00a01\u00a0%");
    assertThat(us.odds(0.735)).isEqualTo("74\u00a0%");
  }

  @Test
  void speaksTheReadersLanguage() {
    FigureText spanish = FigureText.of(UnitPreference.US, "es");

    assertThat(spanish.month(YearMonth.of(2026, 10))).isEqualTo("octubre 2026");
    assertThat(spanish.pressure(Pressure.ofPsi(72))).isEqualTo("72\u00a0psi");
  }

  @Test
  void roundsAndGroupsAsTheLibraryDoes() {
    var random = new java.util.Random(4711);
    var library = (java.text.DecimalFormat) java.text.NumberFormat.getNumberInstance(us.locale());
    library.setMaximumFractionDigits(0);
    library.setRoundingMode(RoundingMode.HALF_UP);
    for (int i = 0; i < 20_000; i++) {
      double value = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(12));
      double tie = Math.rint(value) + (i % 2 == 0 ? 0.5 : 50);
      for (double any : new double[] {value, tie, Math.rint(value)}) {
        int place = random.nextInt(8) - 2;
        assertThat(Rounding.round(any, place))
            .as("%s at 10^%s", any, place)
            .isEqualTo(new BigDecimal(any).setScale(-place, RoundingMode.HALF_UP).doubleValue());
        String text = library.format(any);
        assertThat(us.decimals(any, 0)).isEqualTo(text.equals("-0") ? "0" : text.replace('-', '−'));
      }
    }
  }
}
