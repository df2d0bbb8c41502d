package towerledger.wording;

import org.jspecify.annotations.Nullable;
import towerledger.drawing.FigureText;
import towerledger.ledger.LedgerWater;
import towerledger.ledger.SiteYears;
import towerledger.quantity.Volume;

/**
 * Water of ledger rows as it is read; what is not known is said in words. The bare forms go without
 * a unit, which stands in their heading.
 *
 * @param words texts in the reader's language
 * @param figures figures in the reader's units
 */
public record WaterText(Words words, FigureText figures) {

  /** A volume. */
  public String volume(@Nullable Double litres) {
    return litres == null ? unknown() : figures.volume(Volume.ofLitres(litres));
  }

  public String bareVolume(@Nullable Double litres) {
    return litres == null ? unknown() : figures.bareVolume(Volume.ofLitres(litres));
  }

  /** A volume with its interval; not known where it or a bound is not. */
  public String estimate(@Nullable Double value, @Nullable Double low, @Nullable Double high) {
    return value == null || low == null || high == null
        ? unknown()
        : figures.estimate(Volume.ofLitres(value), Volume.ofLitres(low), Volume.ofLitres(high));
  }

  public String bareEstimate(@Nullable Double value, @Nullable Double low, @Nullable Double high) {
    return value == null || low == null || high == null
        ? unknown()
        : figures.bareEstimate(Volume.ofLitres(value), Volume.ofLitres(low), Volume.ofLitres(high));
  }

  /** What a sound system would have taken in. */
  public String expected(LedgerWater water) {
    return estimate(water.expectedMakeup(), water.expectedLow(), water.expectedHigh());
  }

  public String bareExpected(LedgerWater water) {
    return bareEstimate(water.expectedMakeup(), water.expectedLow(), water.expectedHigh());
  }

  /** What nothing explains. */
  public String unaccounted(LedgerWater water) {
    return estimate(water.unaccounted(), water.unaccountedLow(), water.unaccountedHigh());
  }

  public String bareUnaccounted(LedgerWater water) {
    return bareEstimate(water.unaccounted(), water.unaccountedLow(), water.unaccountedHigh());
  }

  /** The extra water that a loss drew. */
  public String loss(LedgerWater water) {
    return estimate(water.loss(), water.lossLow(), water.lossHigh());
  }

  public String bareLoss(LedgerWater water) {
    return bareEstimate(water.loss(), water.lossLow(), water.lossHigh());
  }

  /** What a site evaporated and drifted in a year; without an interval where none is kept. */
  public String evaporated(SiteYears.SiteYear year) {
    return year.litres() == 0
        ? unknown()
        : bareEvaporated(year) + "\u00a0" + figures.volumeUnitName();
  }

  public String bareEvaporated(SiteYears.SiteYear year) {
    double litres = year.litres();
    Double half = year.halfWidth();
    return litres == 0
        ? unknown()
        : half == null
            ? bareVolume(litres)
            : bareEstimate(litres, Math.max(0, litres - half), litres + half);
  }

  private String unknown() {
    return words.of("figure.unknown");
  }
}
