package towerledger.site;

import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Pressure;
import towerledger.quantity.Units;

/**
 * A setting of a system that holds from a date on. Each is stored under its SI name; the US name is
 * read as well and converted.
 */
public enum SettingName {
  COLD_WATER_SETPOINT("cold_water_setpoint_c", "cold_water_setpoint_f", Form.TEMPERATURE, -5, 60),
  TARGET_CYCLES("target_cycles", null, Form.NUMBER, 1.01, 100),
  CONDUCTIVITY_SETPOINT("conductivity_setpoint_us_cm", null, Form.NUMBER, 10, 100_000),
  BLOWDOWN_CONTROL("blowdown_control", null, Form.BLOWDOWN_CONTROL, 0, 0),
  DRIFT_PERCENT("drift_percent", null, Form.NUMBER, 0, 1),
  LEVEL_CONTROL("level_control", null, Form.LEVEL_CONTROL, 0, 0),
  LEVEL_SENSOR_OUTSIDE("level_sensor_outside", null, Form.YES_NO, 0, 0),
  MAKEUP_LINE("makeup_line_mm", "makeup_line_in", Form.LENGTH, 5, 1000),
  FILL_VALVE_KV("fill_valve_kv", "fill_valve_cv", Form.FLOW_COEFFICIENT, 0.01, 2000),
  FILL_VALVE_MAX_PRESSURE("fill_valve_max_kpa", "fill_valve_max_psi", Form.PRESSURE, 10, 4000),
  REGULATOR_SET_PRESSURE("regulator_set_kpa", "regulator_set_psi", Form.PRESSURE, 10, 4000);

  private enum Form {
    NUMBER,
    TEMPERATURE,
    LENGTH,
    PRESSURE,
    FLOW_COEFFICIENT,
    YES_NO,
    BLOWDOWN_CONTROL,
    LEVEL_CONTROL
  }

  private final String code;
  private final @Nullable String usCode;
  private final Form form;
  private final double lowest;
  private final double highest;

  SettingName(String code, @Nullable String usCode, Form form, double lowest, double highest) {
    this.code = code;
    this.usCode = usCode;
    this.form = form;
    this.lowest = lowest;
    this.highest = highest;
  }

  /** Name under which it is stored and exported, in SI. */
  public String code() {
    return code;
  }

  /** The name in US units; empty where units do not matter. */
  public Optional<String> usCode() {
    return Optional.ofNullable(usCode);
  }

  /** The setting with an SI or US name; empty when there is none. */
  public static Optional<SettingName> find(String name) {
    for (SettingName setting : values()) {
      if (setting.code.equalsIgnoreCase(name) || name.equalsIgnoreCase(setting.usCode)) {
        return Optional.of(setting);
      }
    }
    return Optional.empty();
  }

  /**
   * A value as given under a name, turned into the text that is stored: SI, plain decimal or code.
   *
   * @param name the SI or US name it was given under
   * @param value as written
   * @throws IllegalArgumentException when it is no such value or out of range, with the remedy
   */
  public String stored(String name, String value) {
    String text = value.strip();
    return switch (form) {
      case YES_NO -> yesNo(name, text);
      case BLOWDOWN_CONTROL -> Coded.parse(BlowdownControl.class, name, text).code();
      case LEVEL_CONTROL -> Coded.parse(LevelControl.class, name, text).code();
      default -> number(name, text);
    };
  }

  private static String yesNo(String name, String text) {
    return switch (text.toLowerCase(Locale.ROOT)) {
      case "true", "yes", "1" -> "true";
      case "false", "no", "0" -> "false";
      default ->
          throw new IllegalArgumentException(
              "%s '%s' is neither true nor false".formatted(name, text));
    };
  }

  private String number(String name, String text) {
    double given;
    try {
      given = Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException("%s '%s' is not a number".formatted(name, text), e);
    }
    double si = name.equalsIgnoreCase(usCode) ? toSi(given) : given;
    if (!(si >= lowest && si <= highest)) {
      throw new IllegalArgumentException(
          "%s of %s is outside what is possible (%s: %s to %s); check the unit"
              .formatted(name, text, code, lowest, highest));
    }
    return Double.toString(si);
  }

  private double toSi(double us) {
    return switch (form) {
      case TEMPERATURE -> Units.celsius(us);
      case LENGTH -> us * Units.MILLIMETRES_PER_INCH;
      case PRESSURE -> Pressure.ofPsi(us).kilopascals();
      case FLOW_COEFFICIENT -> us * Units.KV_PER_CV;
      default -> us;
    };
  }

  /**
   * A stored value as it is told under the US name; as it is where units do not matter.
   *
   * @param si value of a setting that is a number, in the unit of {@link #code()}
   */
  public double toUs(double si) {
    return switch (form) {
      case TEMPERATURE -> Units.fahrenheit(si);
      case LENGTH -> si / Units.MILLIMETRES_PER_INCH;
      case PRESSURE -> Pressure.ofKilopascals(si).psi();
      case FLOW_COEFFICIENT -> si / Units.KV_PER_CV;
      default -> si;
    };
  }
}
