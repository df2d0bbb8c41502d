package towerledger.site;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;

/** All settings of one system on their time line. No date sees a setting that came later. */
public final class Settings {

  /** From this day on holds a setting of which nobody knows when it was made. */
  public static final LocalDate FROM_THE_START = LocalDate.of(1970, 1, 1);

  private final Map<SettingName, NavigableMap<LocalDate, String>> byName =
      new EnumMap<>(SettingName.class);

  /** The time line of a system that has no settings. */
  public static Settings none() {
    return new Settings(List.of());
  }

  Settings(List<DatedSetting> settings) {
    for (DatedSetting setting : settings) {
      byName
          .computeIfAbsent(setting.name(), name -> new TreeMap<>())
          .put(setting.effectiveFrom(), setting.value());
    }
  }

  /** The value in force on a day; empty when none had come yet. */
  public Optional<String> find(SettingName name, LocalDate day) {
    var values = byName.get(name);
    var entry = values == null ? null : values.floorEntry(day);
    return entry == null ? Optional.empty() : Optional.of(entry.getValue());
  }

  /** The number in force on a day, in SI; empty when none had come yet. */
  public OptionalDouble findNumber(SettingName name, LocalDate day) {
    return find(name, day)
        .map(Double::parseDouble)
        .map(OptionalDouble::of)
        .orElse(OptionalDouble.empty());
  }

  /** Every change of one setting, oldest first. */
  public NavigableMap<LocalDate, String> changes(SettingName name) {
    return new TreeMap<>(byName.getOrDefault(name, new TreeMap<>()));
  }

  /** Every day on which some setting changed, oldest first. */
  public List<LocalDate> changeDays() {
    var days = new ArrayList<LocalDate>();
    byName.values().forEach(values -> days.addAll(values.keySet()));
    return days.stream().distinct().sorted(Comparator.naturalOrder()).toList();
  }
}
