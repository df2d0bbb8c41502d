package towerledger.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.function.Function;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Contrast after WCAG 2.2: relative luminance as defined there, 4.5 for text, 3 for marks. */
class ToneTest {

  @ParameterizedTest
  @EnumSource(
      value = Tone.class,
      names = {"INK", "INK_SOFT", "LINK", "LOSS_TEXT"})
  void textStandsOutFromItsGround(Tone text) {
    for (Tone ground : new Tone[] {Tone.GROUND, Tone.FIELD, Tone.RULE_FAINT}) {
      assertThat(contrast(text, ground, Tone::onLight)).isGreaterThanOrEqualTo(4.5);
      assertThat(contrast(text, ground, Tone::onDark)).isGreaterThanOrEqualTo(4.5);
    }
  }

  @ParameterizedTest
  @EnumSource(
      value = Tone.class,
      names = {"LOSS", "INK"})
  void marksThatCarryMeaningStandOutFromTheGround(Tone mark) {
    assertThat(contrast(mark, Tone.GROUND, Tone::onLight)).isGreaterThanOrEqualTo(3);
    assertThat(contrast(mark, Tone.GROUND, Tone::onDark)).isGreaterThanOrEqualTo(3);
  }

  @ParameterizedTest
  @CsvSource({
    "GROUND, EVAPORATION",
    "EVAPORATION, DRIFT",
    "DRIFT, NEEDED_BLOWDOWN",
    "NEEDED_BLOWDOWN, OTHER_USE"
  })
  void waterGrowsDeeperStepByStepEvenInGrey(Tone nearer, Tone farther) {
    assertThat(contrast(nearer, farther, Tone::onLight)).isGreaterThan(1.25);
    assertThat(contrast(nearer, farther, Tone::onDark)).isGreaterThan(1.25);
  }

  private static double contrast(Tone a, Tone b, Function<Tone, String> colour) {
    double first = luminance(colour.apply(a));
    double second = luminance(colour.apply(b));
    return (Math.max(first, second) + 0.05) / (Math.min(first, second) + 0.05);
  }

  private static double luminance(String hex) {
    int rgb = Integer.parseInt(hex.substring(1), 16);
    return 0.2126 * linear(rgb >> 16) + 0.7152 * linear(rgb >> 8) + 0.0722 * linear(rgb);
  }

  private static double linear(int channel) {
    double value = (channel & 0xff) / 255.0;
    return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
  }
}
