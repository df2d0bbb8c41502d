package towerledger.intake.csv;

import java.util.function.DoubleUnaryOperator;
import towerledger.quantity.Units;

/** A unit of US custom in a column's name and its SI twin, which may be used instead. */
public enum Twin {
  FEET("_ft", "_m", us -> us * Units.METRES_PER_FOOT),
  INCHES("_in", "_mm", us -> us * Units.MILLIMETRES_PER_INCH),
  FAHRENHEIT("_f", "_c", Units::celsius),
  PSI("_psi", "_kpa", us -> us * Units.PASCALS_PER_PSI / 1000),
  INCHES_OF_MERCURY("_inhg", "_kpa", us -> us * Units.PASCALS_PER_INCH_HG / 1000),
  GALLONS_PER_MINUTE("_gpm", "_l_s", us -> us * Units.LITRES_PER_US_GALLON / 60),
  CUBIC_FEET_PER_MINUTE("_cfm", "_m3_s", us -> us * Units.LITRES_PER_CUBIC_FOOT / 1000 / 60),
  GALLONS("_gal", "_l", us -> us * Units.LITRES_PER_US_GALLON),
  HORSEPOWER("_hp", "_kw", us -> us * Units.WATTS_PER_HORSEPOWER / 1000),
  MILLION_BTU("_mmbtu", "_gj", us -> us * Units.JOULES_PER_BTU / 1000),
  /** Nominal tons of a tower: 15,000 Btu/h rejected. */
  TOWER_TONS("_tons", "_kw", us -> us * Units.WATTS_PER_TOWER_TON / 1000),
  TON_HOURS("_ton_hours", "_kwh", us -> us * Units.JOULES_PER_TON_HOUR / Units.JOULES_PER_KWH),
  VALVE_COEFFICIENT("_cv", "_kv", us -> us * Units.KV_PER_CV);

  private final String usEnding;
  private final String siEnding;
  private final DoubleUnaryOperator toSi;

  Twin(String usEnding, String siEnding, DoubleUnaryOperator toSi) {
    this.usEnding = usEnding;
    this.siEnding = siEnding;
    this.toSi = toSi;
  }

  /** The twin's name of a column whose US name is given. */
  String siName(String usName) {
    if (!usName.endsWith(usEnding)) {
      throw new IllegalArgumentException(
          "column %s does not end in %s".formatted(usName, usEnding));
    }
    return usName.substring(0, usName.length() - usEnding.length()) + siEnding;
  }

  /** The unit of US custom as columns end in it, without its underscore. */
  public String usUnit() {
    return usEnding.substring(1);
  }

  /** The SI unit as columns end in it, without its underscore. */
  public String siUnit() {
    return siEnding.substring(1);
  }

  /** A number in SI as one of US custom; all twins are straight lines. */
  public double toUs(double si) {
    double zero = toSi.applyAsDouble(0);
    return (si - zero) / (toSi.applyAsDouble(1) - zero);
  }

  double toSi(double us) {
    return toSi.applyAsDouble(us);
  }
}
