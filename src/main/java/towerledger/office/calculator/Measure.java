package towerledger.office.calculator;

import towerledger.account.UnitPreference;
import towerledger.quantity.Flow;
import towerledger.quantity.Power;
import towerledger.quantity.Pressure;
import towerledger.quantity.Temperature;
import towerledger.quantity.Units;
import towerledger.wording.Words;

/** What a typed number measures, in the units of either kind of reader. */
enum Measure {
  /** Inside: °C. */
  TEMPERATURE("°F", "°C"),
  /** Inside: L/s. */
  FLOW("gpm", "L/s"),
  /** Heat that leaves with the tower's air; a tower ton is 15,000 Btu/h. Inside: W. */
  TOWER_HEAT("tower-tons", "kW"),
  /** Inside: Pa. */
  PRESSURE("psi", "kPa"),
  /** Inside: µS/cm. */
  CONDUCTIVITY("µS/cm", "µS/cm"),
  /** Inside: a ratio. */
  PERCENT("%", "%"),
  /** Inside: m. */
  ALTITUDE("ft", "m"),
  /** Inside: mm. */
  BORE("in", "mm"),
  /** Inside: Kv, m³/h at 1 bar. */
  VALVE("Cv", "Kv"),
  /** A number without a unit. */
  NUMBER("", "");

  private final String usName;
  private final String siName;

  Measure(String usName, String siName) {
    this.usName = usName;
    this.siName = siName;
  }

  /** Name or sign of the reader's unit. */
  String unitName(UnitPreference units, Words words) {
    String name = units == UnitPreference.US ? usName : siName;
    return words.or("calc.unit." + name, name);
  }

  /** From the reader's unit to the one used inside. */
  double inside(double typed, UnitPreference units) {
    boolean us = units == UnitPreference.US;
    return switch (this) {
      case TEMPERATURE -> us ? Temperature.ofFahrenheit(typed).celsius() : typed;
      case FLOW -> us ? Flow.ofUsGallonsPerMinute(typed).litresPerSecond() : typed;
      case TOWER_HEAT -> us ? Power.ofTowerTons(typed).watts() : Power.ofKilowatts(typed).watts();
      case PRESSURE ->
          us ? Pressure.ofPsi(typed).pascals() : Pressure.ofKilopascals(typed).pascals();
      case PERCENT -> typed / 100;
      case ALTITUDE -> us ? typed * Units.METRES_PER_FOOT : typed;
      case BORE -> us ? typed * Units.MILLIMETRES_PER_INCH : typed;
      case VALVE -> us ? typed * Units.KV_PER_CV : typed;
      case CONDUCTIVITY, NUMBER -> typed;
    };
  }
}
