package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;

/**
 * A volume as a bill counts it: decimal and in a stated unit, so that 412.5 ccf billed in ccf stays
 * 412.5. Billed in another unit it is converted by the factors of {@link VolumeUnit}.
 *
 * @param amount number of units, 0 or more
 * @param unit unit of the amount
 */
public record Usage(BigDecimal amount, VolumeUnit unit) {

  /**
   * Decimals kept when a physical volume becomes billing units: a millionth of a litre in the
   * largest unit, far below what a meter shows and just above the noise of binary arithmetic.
   */
  static final int UNIT_DECIMALS = 9;

  public Usage {
    if (amount.signum() < 0) {
      throw new IllegalArgumentException(
          "usage of %s %s is below 0; a bill counts what went through the meter"
              .formatted(amount.toPlainString(), unit.code()));
    }
  }

  public static Usage of(String amount, VolumeUnit unit) {
    return new Usage(new BigDecimal(amount), unit);
  }

  public static Usage of(Volume volume) {
    return new Usage(BigDecimal.valueOf(volume.litres()), VolumeUnit.LITRE);
  }

  /** The same water in another unit; exact when the unit is the same. */
  public BigDecimal in(VolumeUnit other) {
    return unit == other ? amount : units(amount.doubleValue() * unit.litres(), other);
  }

  public Volume volume() {
    return new Volume(amount.doubleValue() * unit.litres());
  }

  static BigDecimal units(double litres, VolumeUnit unit) {
    return BigDecimal.valueOf(litres / unit.litres()).setScale(UNIT_DECIMALS, RoundingMode.HALF_UP);
  }
}
