package towerledger.intake.file;

import java.util.EnumMap;
import java.util.Map;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.Twin;
import towerledger.site.SettingName;

/** Columns that give settings in the row of a tower that is a system of its own. */
final class SettingColumns {

  private final Map<SettingName, Column> columns = new EnumMap<>(SettingName.class);

  SettingColumns(Columns file) {
    for (SettingName name : SettingName.values()) {
      String us = name.usCode().orElse(name.code());
      Twin twin =
          switch (name) {
            case COLD_WATER_SETPOINT -> Twin.FAHRENHEIT;
            case MAKEUP_LINE -> Twin.INCHES;
            case FILL_VALVE_KV -> Twin.VALVE_COEFFICIENT;
            case FILL_VALVE_MAX_PRESSURE, REGULATOR_SET_PRESSURE -> Twin.PSI;
            default -> null;
          };
      columns.put(name, twin == null ? file.optional(us) : file.number(us, twin, 0, 0));
    }
  }

  Iterable<Column> all() {
    return columns.values();
  }

  /** The settings the row fills, as they are stored. */
  Map<SettingName, String> read(Row row) {
    var settings = new EnumMap<SettingName, String>(SettingName.class);
    columns.forEach(
        (name, column) -> {
          String value = row.findRaw(column);
          if (value != null) {
            settings.put(name, name.stored(row.nameOf(column), value));
          }
        });
    return settings;
  }
}
