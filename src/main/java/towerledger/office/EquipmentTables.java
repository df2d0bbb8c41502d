package towerledger.office;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.drawing.FigureText;
import towerledger.page.FigureTable;
import towerledger.page.RegisterUnit;
import towerledger.quantity.Flow;
import towerledger.quantity.Power;
import towerledger.quantity.Temperature;
import towerledger.site.CoolingSystem;
import towerledger.site.DatedSettings;
import towerledger.site.Meter;
import towerledger.site.MeterDetails;
import towerledger.site.Nameplate;
import towerledger.site.SettingName;
import towerledger.site.Settings;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.site.Tower;
import towerledger.wording.Words;

/** Towers, meters and settings of a system as tables. */
@Component
class EquipmentTables {

  private static final char NO_BREAK = '\u00a0';

  private final Sites sites;
  private final DatedSettings settings;

  EquipmentTables(Sites sites, DatedSettings settings) {
    this.sites = sites;
    this.settings = settings;
  }

  /** What stands at a system. */
  record Standing(List<Tower> towers, List<Meter> meters, Settings settings) {}

  Standing find(CoolingSystem system) {
    List<Long> id = List.of(system.id());
    return new Standing(
        sites.listTowers(id).getOrDefault(system.id(), List.of()),
        sites.listMeters(id).getOrDefault(system.id(), List.of()),
        settings.list(id).getOrDefault(system.id(), Settings.none()));
  }

  static List<SystemView.Equipment> of(Standing standing, Site site, Words words, FigureText text) {
    List<SystemView.Equipment> tables = new ArrayList<>();
    if (!standing.towers().isEmpty()) {
      tables.add(
          new SystemView.Equipment(
              words.of("equipment.towers"), towers(standing.towers(), words, text)));
    }
    if (!standing.meters().isEmpty()) {
      tables.add(
          new SystemView.Equipment(
              words.of("equipment.meters"), meters(standing.meters(), site, words, text)));
    }
    FigureTable settings = settingsTable(standing.settings(), words, text);
    if (!settings.rows().isEmpty()) {
      tables.add(new SystemView.Equipment(words.of("equipment.settings"), settings));
    }
    return tables;
  }

  private static FigureTable towers(List<Tower> towers, Words words, FigureText text) {
    List<List<String>> rows = new ArrayList<>();
    for (Tower tower : towers) {
      Nameplate plate = tower.nameplate();
      rows.add(
          List.of(
              plate.name() + " (" + tower.code() + ")",
              towerPower(plate.nominalKw(), words, text),
              plate.cells() == null ? words.of("figure.unknown") : plate.cells().toString(),
              plate.designWaterFlowLS() == null
                  ? words.of("figure.unknown")
                  : text.flow(Flow.ofLitresPerSecond(plate.designWaterFlowLS())),
              temperatures(plate, words, text),
              plate.startedOn() == null
                  ? words.of("figure.unknown")
                  : text.day(plate.startedOn())));
    }
    return new FigureTable(
        List.of(
            words.of("equipment.tower"),
            words.of("equipment.nominal"),
            words.of("equipment.cells"),
            words.of("equipment.flow"),
            words.of("equipment.temperatures"),
            words.of("equipment.started")),
        rows);
  }

  private static String towerPower(@Nullable Double kw, Words words, FigureText text) {
    if (kw == null) {
      return words.of("figure.unknown");
    }
    return text.units() == towerledger.account.UnitPreference.US
        ? words.of("equipment.tons", text.significant(Power.ofKilowatts(kw).towerTons(), 3))
        : words.of("equipment.kilowatts", text.significant(kw, 3));
  }

  private static String temperatures(Nameplate plate, Words words, FigureText text) {
    if (plate.designHotWaterC() == null
        && plate.designColdWaterC() == null
        && plate.designWetBulbC() == null) {
      return words.of("figure.unknown");
    }
    return words.of(
        "equipment.temperatures.of",
        temperature(plate.designHotWaterC(), words, text),
        temperature(plate.designColdWaterC(), words, text),
        temperature(plate.designWetBulbC(), words, text));
  }

  private static String temperature(@Nullable Double celsius, Words words, FigureText text) {
    return celsius == null
        ? words.of("figure.unknown")
        : text.temperature(Temperature.ofCelsius(celsius));
  }

  private static FigureTable meters(List<Meter> meters, Site site, Words words, FigureText text) {
    List<List<String>> rows = new ArrayList<>();
    for (Meter meter : meters) {
      MeterDetails details = meter.details();
      String since =
          details.installedAt() == null
              ? words.of("figure.unknown")
              : text.day(LocalDate.ofInstant(details.installedAt(), site.details().zone()));
      String until =
          details.removedAt() == null
              ? words.of("equipment.in-service")
              : text.day(LocalDate.ofInstant(details.removedAt(), site.details().zone()));
      rows.add(
          List.of(
              meter.code(),
              words.of("meter.role." + details.role().code()),
              RegisterUnit.of(details, words, text),
              details.accuracyPercent() == null
                  ? words.of("figure.unknown")
                  : "±\u00a0" + text.tick(details.accuracyPercent()) + "\u00a0%",
              since,
              until));
    }
    return new FigureTable(
        List.of(
            words.of("equipment.meter"),
            words.of("equipment.role"),
            words.of("equipment.unit"),
            words.of("equipment.accuracy"),
            words.of("equipment.since"),
            words.of("equipment.until")),
        rows);
  }

  private static FigureTable settingsTable(Settings settings, Words words, FigureText text) {
    List<List<String>> rows = new ArrayList<>();
    each(
        settings,
        (name, from, value) ->
            rows.add(
                List.of(
                    SettingText.name(name, words),
                    SettingText.value(name, value, words, text),
                    day(from, words, text))));
    return new FigureTable(
        List.of(
            words.of("equipment.setting"), words.of("equipment.value"), words.of("equipment.from")),
        rows);
  }

  /** The settings of a system one by one, as they may be edited. */
  static List<SystemView.Setting> settings(Settings settings, Words words, FigureText text) {
    List<SystemView.Setting> told = new ArrayList<>();
    each(
        settings,
        (name, from, value) ->
            told.add(
                new SystemView.Setting(
                    name.code(),
                    from.toString(),
                    words.of(
                        from.equals(Settings.FROM_THE_START)
                            ? "equipment.setting.always"
                            : "equipment.setting.since",
                        SettingText.name(name, words),
                        SettingText.value(name, value, words, text),
                        day(from, words, text)))));
    return told;
  }

  private static String day(LocalDate from, Words words, FigureText text) {
    return from.equals(Settings.FROM_THE_START)
        ? words.of("equipment.always")
        : text.day(from).replace(' ', NO_BREAK);
  }

  /** Takes one setting as it was told once. */
  private interface Told {

    void take(SettingName name, LocalDate from, String value);
  }

  private static void each(Settings settings, Told told) {
    for (SettingName name : SettingName.values()) {
      settings.changes(name).forEach((from, value) -> told.take(name, from, value));
    }
  }
}
