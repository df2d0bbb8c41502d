package towerledger.office.describe;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleFunction;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.site.SettingName;

/**
 * The cells of a setting that is there. It is named by its SI name; a reader of US units sees and
 * types its value under the US name.
 */
final class SettingCells {

  static final String SETTING = "setting";
  static final String VALUE = "value";

  private SettingCells() {}

  /** Turns the value that is stored into the one that the reader types. */
  static void show(Viewer viewer, Map<String, String> cells, DoubleFunction<String> rounded) {
    String setting = cells.getOrDefault(SETTING, "");
    if (choices(setting).isEmpty()) {
      Optional<SettingName> us = toldIn(viewer, setting);
      cells.computeIfPresent(
          VALUE,
          (column, stored) -> {
            double si = Double.parseDouble(stored);
            return rounded.apply(us.map(name -> name.toUs(si)).orElse(si));
          });
    }
  }

  /** Puts the name under which a value was typed beside it; nothing where none was. */
  static void take(Viewer viewer, String setting, Map<String, String> cells) {
    if (cells.containsKey(VALUE)) {
      toldIn(viewer, setting)
          .flatMap(SettingName::usCode)
          .ifPresent(name -> cells.put(SETTING, name));
    }
  }

  /** What the reader is told that the setting is, as one of the choices of its column. */
  static String choice(Viewer viewer, String setting) {
    return toldIn(viewer, setting).flatMap(SettingName::usCode).orElse(setting);
  }

  /** Codes that its value may have; empty where it is a number. */
  static List<String> choices(String setting) {
    return SettingName.find(setting)
        .map(name -> Sheet.CHOICES.getOrDefault(name.code(), List.of()))
        .orElse(List.of());
  }

  /** The setting, where the reader is told it in US units and those matter. */
  private static Optional<SettingName> toldIn(Viewer viewer, String setting) {
    return viewer.units() == UnitPreference.SI
        ? Optional.empty()
        : SettingName.find(setting).filter(name -> name.usCode().isPresent());
  }
}
