package towerledger.intake.file;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.account.EmptyValues;
import towerledger.account.Outcome;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.site.DatedSettings;
import towerledger.site.FanControl;
import towerledger.site.FlowArrangement;
import towerledger.site.Nameplate;
import towerledger.site.SettingName;
import towerledger.site.Settings;
import towerledger.site.Sites;
import towerledger.site.SystemDetails;

/**
 * {@code towers.csv}: towers and what their nameplates say. A tower that names no system is one of
 * its own, and its row may tell of that system and its settings too.
 */
@Component
class TowersFile implements FileFormat<TowersFile.TowerRow> {

  private static final Columns COLUMNS = new Columns("towers");
  private static final Column TOWER = COLUMNS.required("tower");
  private static final Column SITE = COLUMNS.required("site");
  private static final Column NAME = COLUMNS.required("name");
  private static final Column SYSTEM = COLUMNS.optional("system");
  private static final Column CELLS = COLUMNS.number("cells", 1, 200);
  private static final Column ARRANGEMENT = COLUMNS.optional("flow_arrangement");
  private static final Column NOMINAL =
      COLUMNS.requiredNumber("nominal_tons", Twin.TOWER_TONS, 1, 1_000_000);
  private static final Column WATER_FLOW =
      COLUMNS.number("design_water_flow_gpm", Twin.GALLONS_PER_MINUTE, 0.01, 100_000);
  private static final Column HOT_WATER =
      COLUMNS.number("design_hot_water_f", Twin.FAHRENHEIT, 0, 99);
  private static final Column COLD_WATER =
      COLUMNS.number("design_cold_water_f", Twin.FAHRENHEIT, 0, 99);
  private static final Column WET_BULB =
      COLUMNS.number("design_wet_bulb_f", Twin.FAHRENHEIT, -30, 50);
  private static final Column DRY_BULB =
      COLUMNS.number("design_dry_bulb_f", Twin.FAHRENHEIT, -30, 60);
  private static final Column AIR_FLOW =
      COLUMNS.number("design_air_flow_cfm", Twin.CUBIC_FEET_PER_MINUTE, 0.01, 100_000);
  private static final Column FAN_MOTOR =
      COLUMNS.number("fan_motor_hp", Twin.HORSEPOWER, 0.01, 20_000);
  private static final Column FAN_CONTROL = COLUMNS.optional("fan_control");
  private static final Column BASIN =
      COLUMNS.number("basin_volume_gal", Twin.GALLONS, 1, 1_000_000_000);
  private static final Column HEATER = COLUMNS.optional("has_basin_heater");
  private static final Column STARTED_ON = COLUMNS.optional("started_on");
  private static final SystemColumns OWN_SYSTEM = new SystemColumns(COLUMNS);
  private static final SettingColumns OWN_SETTINGS = new SettingColumns(COLUMNS);

  /** A tower, ready to be put, with its own system if it is one. */
  record TowerRow(
      String code,
      String site,
      @Nullable String system,
      Nameplate nameplate,
      SystemDetails own,
      Map<SettingName, String> settings) {}

  private final Sites sites;
  private final DatedSettings settings;

  TowersFile(Sites sites, DatedSettings settings) {
    this.sites = sites;
    this.settings = settings;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 40;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public TowerRow read(Row row, Taking taking) {
    String code = row.code(TOWER);
    String system = row.findCode(SYSTEM);
    if (system != null && !system.equals(code)) {
      requireEmpty(row, OWN_SYSTEM.all(), system);
      requireEmpty(row, OWN_SETTINGS.all(), system);
    }
    String name = row.text(NAME, 200);
    return new TowerRow(
        code,
        row.code(SITE),
        system,
        nameplate(row, name),
        OWN_SYSTEM.read(row, name),
        OWN_SETTINGS.read(row));
  }

  private static void requireEmpty(Row row, Iterable<Column> columns, String system) {
    for (Column column : columns) {
      if (row.tells(column)) {
        throw RowProblem.of(
            "%s is filled, but the tower belongs to system '%s'; give it in systems.csv or"
                + " settings.csv and leave it empty here",
            row.nameOf(column), system);
      }
    }
  }

  private static Nameplate nameplate(Row row, String name) {
    return new Nameplate(
        name,
        row.findInteger(CELLS),
        SystemColumns.choice(row, ARRANGEMENT, FlowArrangement.class),
        row.number(NOMINAL),
        row.findNumber(WATER_FLOW),
        row.findNumber(HOT_WATER),
        row.findNumber(COLD_WATER),
        row.findNumber(WET_BULB),
        row.findNumber(DRY_BULB),
        row.findNumber(AIR_FLOW),
        row.findNumber(FAN_MOTOR),
        SystemColumns.choice(row, FAN_CONTROL, FanControl.class),
        row.findNumber(BASIN),
        row.yesNo(HEATER),
        row.findDay(STARTED_ON));
  }

  @Override
  public List<RowFate> take(List<TowerRow> rows, Taking taking) {
    return rows.stream().map(row -> RowFate.of(put(row, taking))).toList();
  }

  private Outcome put(TowerRow row, Taking taking) {
    Outcome outcome =
        sites.putTower(
            taking.actor(), row.code, row.site, row.system, row.nameplate, row.own, taking.empty());
    LocalDate from = Objects.requireNonNullElse(row.nameplate.startedOn(), Settings.FROM_THE_START);
    for (var setting : row.settings.entrySet()) {
      Outcome settingOutcome =
          settings.put(
              taking.actor(),
              sites.getSystem(row.code),
              from,
              setting.getKey(),
              setting.getValue(),
              null,
              EmptyValues.KEEP);
      if (outcome == Outcome.UNCHANGED && settingOutcome != Outcome.UNCHANGED) {
        outcome = Outcome.CHANGED;
      }
    }
    return outcome;
  }
}
