package towerledger.intake.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.Twin;
import towerledger.site.BuildingUse;
import towerledger.site.Coded;
import towerledger.site.HeatSource;
import towerledger.site.SystemDetails;
import towerledger.site.SystemKind;

/** Columns that tell of a system: in its own file, and in that of a tower that is a system. */
final class SystemColumns {

  private final Column kind;
  private final Column volume;
  private final Column heatSource;
  private final Column economizer;
  private final Column use;
  private final Column occupiedFrom;
  private final Column occupiedTo;
  private final Column occupiedDays;
  private final Column idleMonths;

  SystemColumns(Columns columns) {
    kind = columns.optional("kind");
    volume = columns.number("system_volume_gal", Twin.GALLONS, 1, 1_000_000_000);
    heatSource = columns.optional("heat_source");
    economizer = columns.optional("waterside_economizer");
    use = columns.optional("building_use");
    occupiedFrom = columns.optional("occupied_from");
    occupiedTo = columns.optional("occupied_to");
    occupiedDays = columns.optional("occupied_days");
    idleMonths = columns.optional("idle_months");
  }

  List<Column> all() {
    return List.of(
        kind,
        volume,
        heatSource,
        economizer,
        use,
        occupiedFrom,
        occupiedTo,
        occupiedDays,
        idleMonths);
  }

  SystemDetails read(Row row, String name) {
    return new SystemDetails(
        name,
        choice(row, kind, SystemKind.class),
        row.findNumber(volume),
        choice(row, heatSource, HeatSource.class),
        row.yesNo(economizer),
        choice(row, use, BuildingUse.class),
        row.findTime(occupiedFrom),
        row.findTime(occupiedTo),
        row.findMatching(occupiedDays, MonthsForm.DAYS, MonthsForm.DAYS_IN_WORDS),
        row.findMatching(idleMonths, MonthsForm.MONTHS, MonthsForm.MONTHS_IN_WORDS));
  }

  static <E extends Enum<E> & Coded> @Nullable E choice(Row row, Column column, Class<E> choices) {
    return row.word(column)
        .map(word -> Coded.parse(choices, row.nameOf(column), word))
        .orElse(null);
  }
}
