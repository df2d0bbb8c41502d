package towerledger.intake.file;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.site.DatedSettings;
import towerledger.site.SettingName;
import towerledger.site.Sites;

/** {@code settings.csv}: settings of systems, each in force from a day on. */
@Component
class SettingsFile implements FileFormat<SettingsFile.SettingRow> {

  private static final Columns COLUMNS = new Columns("settings");
  private static final Column SYSTEM = COLUMNS.required("system");
  private static final Column EFFECTIVE_FROM = COLUMNS.required("effective_from");
  private static final Column SETTING = COLUMNS.required("setting");
  private static final Column VALUE = COLUMNS.required("value");
  private static final Column REASON = COLUMNS.optional("reason");

  /** A setting, ready to be put. */
  record SettingRow(
      String system,
      LocalDate effectiveFrom,
      SettingName name,
      String value,
      @Nullable String reason) {}

  private final Sites sites;
  private final DatedSettings settings;

  SettingsFile(Sites sites, DatedSettings settings) {
    this.sites = sites;
    this.settings = settings;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 50;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public SettingRow read(Row row, Taking taking) {
    String given = row.text(SETTING, 60);
    SettingName name =
        SettingName.find(given)
            .orElseThrow(
                () ->
                    RowProblem.of(
                        "setting %s is not known; use one of %s",
                        RowProblem.quoted(given),
                        String.join(
                            ", ",
                            java.util.Arrays.stream(SettingName.values())
                                .map(s -> s.usCode().orElse(s.code()))
                                .toList())));
    return new SettingRow(
        row.code(SYSTEM),
        row.day(EFFECTIVE_FROM),
        name,
        name.stored(given, row.text(VALUE, 40)),
        row.findText(REASON, 500));
  }

  @Override
  public List<RowFate> take(List<SettingRow> rows, Taking taking) {
    return rows.stream()
        .map(
            row ->
                RowFate.of(
                    settings.put(
                        taking.actor(),
                        sites.getSystem(row.system),
                        row.effectiveFrom,
                        row.name,
                        row.value,
                        row.reason,
                        taking.empty())))
        .toList();
  }
}
