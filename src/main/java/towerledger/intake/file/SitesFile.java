package towerledger.intake.file;

import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.account.Customer;
import towerledger.account.Customers;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.site.SiteDetails;
import towerledger.site.Sites;
import towerledger.site.UnknownCodeException;

/** {@code sites.csv}: a customer's places. */
@Component
class SitesFile implements FileFormat<SitesFile.SiteRow> {

  private static final Columns COLUMNS = new Columns("sites");
  private static final Column SITE = COLUMNS.required("site");
  private static final Column CUSTOMER = COLUMNS.required("customer");
  private static final Column NAME = COLUMNS.required("name");
  private static final Column TIME_ZONE = COLUMNS.required("time_zone");
  private static final Column LATITUDE = COLUMNS.number("latitude_deg", -90, 90);
  private static final Column LONGITUDE = COLUMNS.number("longitude_deg", -180, 180);
  private static final Column ELEVATION = COLUMNS.number("elevation_ft", Twin.FEET, -500, 6000);
  private static final Column STATION = COLUMNS.optional("station");
  private static final Column WATER_SCHEDULE = COLUMNS.optional("water_schedule");
  private static final Column SEWER_SCHEDULE = COLUMNS.optional("sewer_schedule");
  private static final Column SERVICE_SIZE =
      COLUMNS.number("service_meter_size_in", Twin.INCHES, 5, 3000);

  /** A site, ready to be put. */
  record SiteRow(String code, String customer, SiteDetails details) {}

  private final Sites sites;
  private final Customers customers;

  SitesFile(Sites sites, Customers customers) {
    this.sites = sites;
    this.customers = customers;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 20;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public SiteRow read(Row row, Taking taking) {
    return new SiteRow(
        row.code(SITE),
        row.code(CUSTOMER),
        new SiteDetails(
            row.text(NAME, 200),
            zone(row.text(TIME_ZONE, 60)),
            row.findNumber(LATITUDE),
            row.findNumber(LONGITUDE),
            row.findNumber(ELEVATION),
            row.findCode(STATION),
            row.findCode(WATER_SCHEDULE),
            row.findCode(SEWER_SCHEDULE),
            row.findNumber(SERVICE_SIZE)));
  }

  private static String zone(String name) {
    try {
      if (name.contains("/") || name.equals("UTC")) {
        return ZoneId.of(name).getId();
      }
    } catch (DateTimeException e) {
      throw unknownZone(name);
    }
    throw unknownZone(name);
  }

  private static RowProblem unknownZone(String name) {
    return RowProblem.of(
        "time_zone %s is not in the IANA list; use a name such as America/Chicago or UTC",
        RowProblem.quoted(name));
  }

  @Override
  public List<RowFate> take(List<SiteRow> rows, Taking taking) {
    return rows.stream()
        .map(
            row ->
                RowFate.of(
                    sites.putSite(
                        taking.actor(),
                        row.code,
                        customerId(row.customer),
                        row.details,
                        taking.empty())))
        .toList();
  }

  private long customerId(String code) {
    return customers
        .find(code)
        .map(Customer::id)
        .orElseThrow(() -> new UnknownCodeException("customer", code));
  }
}
