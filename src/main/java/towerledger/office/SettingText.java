package towerledger.office;

import java.util.Locale;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;
import towerledger.quantity.Pressure;
import towerledger.quantity.Temperature;
import towerledger.site.SettingName;
import towerledger.wording.Words;

/** Writes a dated setting and its value in the reader's units. */
public final class SettingText {

  private SettingText() {}

  /** A setting's name in words, without its unit. */
  public static String name(SettingName name, Words words) {
    return words.of("setting." + name.name().toLowerCase(Locale.ROOT));
  }

  /** A value as it is stored, in words or with its unit. */
  public static String value(SettingName name, String stored, Words words, FigureText text) {
    return switch (name) {
      case COLD_WATER_SETPOINT ->
          text.temperature(Temperature.ofCelsius(Double.parseDouble(stored)));
      case FILL_VALVE_MAX_PRESSURE, REGULATOR_SET_PRESSURE ->
          text.pressure(Pressure.ofKilopascals(Double.parseDouble(stored)));
      case MAKEUP_LINE ->
          text.units() == UnitPreference.US
              ? text.significant(name.toUs(Double.parseDouble(stored)), 2) + "\u00a0in"
              : text.significant(Double.parseDouble(stored), 3) + "\u00a0mm";
      case FILL_VALVE_KV ->
          text.units() == UnitPreference.US
              ? "Cv\u00a0" + text.significant(name.toUs(Double.parseDouble(stored)), 2)
              : "Kv\u00a0" + text.significant(Double.parseDouble(stored), 2);
      case TARGET_CYCLES -> text.cycles(Double.parseDouble(stored));
      case CONDUCTIVITY_SETPOINT -> text.tick(Double.parseDouble(stored)) + "\u00a0µS/cm";
      case DRIFT_PERCENT -> text.significant(Double.parseDouble(stored), 2) + "\u00a0%";
      case LEVEL_SENSOR_OUTSIDE -> words.of("answer." + stored);
      case BLOWDOWN_CONTROL, LEVEL_CONTROL -> words.of("setting.value." + stored);
    };
  }
}
