package towerledger.quantity;

import java.util.Arrays;
import java.util.stream.Collectors;

/** Units in which water meters register; the code is the one used in import files. */
public enum VolumeUnit {
  US_GALLON("gal", Units.LITRES_PER_US_GALLON),
  THOUSAND_US_GALLONS("kgal", 1000 * Units.LITRES_PER_US_GALLON),
  IMPERIAL_GALLON("imp_gal", Units.LITRES_PER_IMPERIAL_GALLON),
  CUBIC_FOOT("ft3", Units.LITRES_PER_CUBIC_FOOT),
  HUNDRED_CUBIC_FEET("ccf", 100 * Units.LITRES_PER_CUBIC_FOOT),
  LITRE("l", 1),
  CUBIC_METRE("m3", 1000);

  private final String code;
  private final double litres;

  VolumeUnit(String code, double litres) {
    this.code = code;
    this.litres = litres;
  }

  /** Code in import files, for instance {@code kgal}. */
  public String code() {
    return code;
  }

  /** Litres in one unit. */
  public double litres() {
    return litres;
  }

  /**
   * The unit with a code, case ignored.
   *
   * @throws IllegalArgumentException naming the codes that exist
   */
  public static VolumeUnit ofCode(String code) {
    for (VolumeUnit unit : values()) {
      if (unit.code.equalsIgnoreCase(code.strip())) {
        return unit;
      }
    }
    throw new IllegalArgumentException(
        "unit '%s' is not known; use one of %s"
            .formatted(
                code,
                Arrays.stream(values()).map(VolumeUnit::code).collect(Collectors.joining(", "))));
  }
}
