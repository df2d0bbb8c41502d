package towerledger.intake.file;

import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.site.Sites;
import towerledger.site.SystemDetails;

/** {@code systems.csv}: cooling-water loops with one makeup balance. */
@Component
class SystemsFile implements FileFormat<SystemsFile.SystemRow> {

  private static final Columns COLUMNS = new Columns("systems");
  private static final Column SYSTEM = COLUMNS.required("system");
  private static final Column SITE = COLUMNS.required("site");
  private static final Column NAME = COLUMNS.required("name");
  private static final SystemColumns DETAILS = new SystemColumns(COLUMNS);

  /** A system, ready to be put. */
  record SystemRow(String code, String site, SystemDetails details) {}

  private final Sites sites;

  SystemsFile(Sites sites) {
    this.sites = sites;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 30;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public SystemRow read(Row row, Taking taking) {
    return new SystemRow(row.code(SYSTEM), row.code(SITE), DETAILS.read(row, row.text(NAME, 200)));
  }

  @Override
  public List<RowFate> take(List<SystemRow> rows, Taking taking) {
    return rows.stream()
        .map(
            row ->
                RowFate.of(
                    sites.putSystem(
                        taking.actor(), row.code, row.site, row.details, taking.empty())))
        .toList();
  }
}
