package towerledger.intake.file;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.Twin;
import towerledger.weather.Station;
import towerledger.weather.Stations;

/**
 * {@code weather_stations.csv}: where stations stand. Written by an export, so that the ledger
 * elsewhere takes the same pressure for them; a bundle may leave it out.
 */
@Component
class WeatherStationsFile implements FileFormat<Station> {

  private static final Columns COLUMNS = new Columns("weather_stations");
  private static final Column STATION = COLUMNS.required("station");
  private static final Column NAME = COLUMNS.optional("name");
  private static final Column LATITUDE = COLUMNS.number("latitude_deg", -90, 90);
  private static final Column LONGITUDE = COLUMNS.number("longitude_deg", -180, 180);
  private static final Column ELEVATION = COLUMNS.number("elevation_ft", Twin.FEET, -500, 6000);
  private static final Column SOURCE = COLUMNS.optional("source");
  private static final Column TYPICAL_YEAR = COLUMNS.optional("typical_year");

  private final Stations stations;

  WeatherStationsFile(Stations stations) {
    this.stations = stations;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 85;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public Station read(Row row, Taking taking) {
    String source = row.findText(SOURCE, 40);
    return new Station(
        row.code(STATION),
        Optional.ofNullable(row.findText(NAME, 200)),
        known(row.findNumber(LATITUDE)),
        known(row.findNumber(LONGITUDE)),
        known(row.findNumber(ELEVATION)),
        source == null ? "csv" : source,
        Boolean.TRUE.equals(row.yesNo(TYPICAL_YEAR)));
  }

  private static OptionalDouble known(@Nullable Double value) {
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  @Override
  public List<RowFate> take(List<Station> rows, Taking taking) {
    return rows.stream()
        .map(station -> RowFate.of(stations.describe(taking.actor(), station, taking.empty())))
        .toList();
  }
}
