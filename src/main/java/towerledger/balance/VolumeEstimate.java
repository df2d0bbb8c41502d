package towerledger.balance;

import towerledger.quantity.Volume;

/**
 * A volume with the interval that holds it with 95 % probability.
 *
 * @param value best estimate
 * @param low lower 95 % bound, not above the value
 * @param high upper 95 % bound, not below the value
 */
public record VolumeEstimate(Volume value, Volume low, Volume high) {

  public VolumeEstimate {
    if (low.compareTo(value) > 0 || high.compareTo(value) < 0) {
      throw new IllegalArgumentException(
          "estimate of %s L lies outside its own interval %s to %s L"
              .formatted(value.litres(), low.litres(), high.litres()));
    }
  }

  /** An estimate from litres. */
  public static VolumeEstimate ofLitres(double value, double low, double high) {
    return new VolumeEstimate(Volume.ofLitres(value), Volume.ofLitres(low), Volume.ofLitres(high));
  }

  /** Half of the interval, L. */
  public double halfWidthLitres() {
    return (high.litres() - low.litres()) / 2;
  }
}
