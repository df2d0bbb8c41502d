package towerledger.intake.file;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.account.EmptyValues;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Moment;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.quantity.VolumeUnit;
import towerledger.site.Coded;
import towerledger.site.MeterDetails;
import towerledger.site.MeterRole;
import towerledger.site.MeterType;
import towerledger.site.Sites;
import towerledger.site.WaterSource;

/** {@code meters.csv}: water meters of systems, and service meters of sites. */
@Component
class MetersFile implements FileFormat<MetersFile.MeterRow> {

  private static final Columns COLUMNS = new Columns("meters");
  private static final Column METER = COLUMNS.required("meter");
  private static final Column SYSTEM = COLUMNS.optional("system");
  private static final Column SITE = COLUMNS.optional("site");
  private static final Column ROLE = COLUMNS.required("role");
  private static final Column UNIT = COLUMNS.required("unit");
  private static final Column MULTIPLIER = COLUMNS.number("multiplier", 1e-9, 1e8);
  private static final Column DIGITS = COLUMNS.number("register_digits", 1, 18);
  private static final Column ACCURACY = COLUMNS.number("accuracy_percent", 0, 100);
  private static final Column SIZE = COLUMNS.number("size_in", Twin.INCHES, 5, 3000);
  private static final Column TYPE = COLUMNS.optional("type");
  private static final Column PARENT = COLUMNS.optional("parent_meter");
  private static final Column SOURCE = COLUMNS.optional("source");
  private static final Column PURPOSE = COLUMNS.optional("purpose");
  private static final Column INSTALLED_AT = COLUMNS.optional("installed_at");
  private static final Column FIRST_REGISTER =
      COLUMNS.number("first_register", 0, 999_999_999_999.0);
  private static final Column REMOVED_AT = COLUMNS.optional("removed_at");
  private static final Column LAST_REGISTER = COLUMNS.number("last_register", 0, 999_999_999_999.0);

  /** A meter, ready to be put. */
  record MeterRow(
      String code,
      @Nullable String system,
      @Nullable String site,
      MeterDetails details,
      boolean tellsMultiplier) {}

  private final Sites sites;

  MetersFile(Sites sites) {
    this.sites = sites;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 60;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public MeterRow read(Row row, Taking taking) {
    String code = row.code(METER);
    String system = row.findCode(SYSTEM);
    String site = row.findCode(SITE);
    ZoneId zone = zone(code, system, site, taking.directory());
    String parent = row.findCode(PARENT);
    if (code.equals(parent)) {
      throw RowProblem.of(
          "meter '%s' names itself as parent_meter; name the meter before it", code);
    }
    BigDecimal multiplier = row.findDecimal(MULTIPLIER, 9);
    return new MeterRow(
        code,
        system,
        site,
        new MeterDetails(
            Coded.parse(MeterRole.class, "role", row.text(ROLE, 40)),
            VolumeUnit.ofCode(row.text(UNIT, 40)).code(),
            multiplier == null ? BigDecimal.ONE : multiplier,
            row.findInteger(DIGITS),
            row.findNumber(ACCURACY),
            row.findNumber(SIZE),
            SystemColumns.choice(row, TYPE, MeterType.class),
            parent,
            SystemColumns.choice(row, SOURCE, WaterSource.class),
            row.findText(PURPOSE, 200),
            instant(row.findMoment(INSTALLED_AT, zone)),
            row.findDecimal(FIRST_REGISTER, 6),
            instant(row.findMoment(REMOVED_AT, zone)),
            row.findDecimal(LAST_REGISTER, 6)),
        multiplier != null);
  }

  private static ZoneId zone(
      String code, @Nullable String system, @Nullable String site, Directory directory) {
    if (system != null) {
      return directory.system(system).site().zone();
    }
    if (site != null) {
      return directory.site(site).zone();
    }
    throw RowProblem.of("meter '%s' names neither system nor site; give one", code);
  }

  private static @Nullable Instant instant(@Nullable Moment moment) {
    return moment == null ? null : moment.instant();
  }

  @Override
  public List<RowFate> take(List<MeterRow> rows, Taking taking) {
    return rows.stream()
        .map(
            row ->
                RowFate.of(
                    sites.putMeter(
                        taking.actor(),
                        row.code,
                        row.system,
                        row.site,
                        told(row, taking.empty()),
                        taking.empty())))
        .toList();
  }

  /** 1 is the multiplier of a new meter that tells none, and no news of one that is known. */
  private MeterDetails told(MeterRow row, EmptyValues empty) {
    return row.tellsMultiplier || empty == EmptyValues.CLEAR
        ? row.details
        : sites
            .findMeter(row.code)
            .map(known -> row.details.withMultiplier(known.details().multiplier()))
            .orElse(row.details);
  }
}
