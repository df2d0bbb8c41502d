package towerledger.browser;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import towerledger.ledger.InventedPortfolio;

/**
 * Ten thousand systems with sixty months each, to measure pages on. {@value #PATTERNS} systems are
 * written into the ledger one by one with all of their working; the others are copies of them under
 * own codes, made by {@code INSERT … SELECT}. Every system has a makeup meter read once a month;
 * {@value #LOGGED} of them also have five years of hourly volumes, weekly samples and pressures,
 * and monthly visits.
 */
final class LargeBook {

  static final int PATTERNS = 250;
  static final int LOGGED = 10;
  static final YearMonth FIRST = YearMonth.of(2021, 11);
  static final YearMonth LAST = YearMonth.of(2026, 10);
  private static final int COPIES = 39;
  private static final String CODE = "BOOK-";
  private static final Pattern INDEX = Pattern.compile("^CREATE INDEX (\\S+_IX\"?) ");

  private final ApplicationContext context;
  private final JdbcTemplate jdbc;

  LargeBook(ApplicationContext context) {
    this.context = context;
    this.jdbc = context.getBean(JdbcTemplate.class);
  }

  /** Code of a system that has everything, from 0. */
  static String logged(int number) {
    return CODE + "T" + number;
  }

  boolean isWritten() {
    return number("SELECT COUNT(*) FROM site_system WHERE code LIKE 'K" + COPIES + "-%'") > 0;
  }

  void write() {
    InventedPortfolio patterns = new InventedPortfolio(context, CODE);
    patterns.write(PATTERNS, FIRST, LAST);
    List<String> indexes = takeIndexes("ledger_month");
    for (int copy = 1; copy <= COPIES; copy++) {
      copy("K" + copy + "-");
    }
    indexes.forEach(jdbc::execute);
    patterns.sum();
    readMeters();
    logHours();
    logVisits();
  }

  /**
   * Takes the indexes of a table away on H2, which would write most of their pages anew for each
   * copy; answers with what makes them again.
   */
  private List<String> takeIndexes(String table) {
    Boolean h2 = jdbc.execute((ConnectionCallback<Boolean>) LargeBook::isH2);
    if (!Boolean.TRUE.equals(h2)) {
      return List.of();
    }
    List<String> made =
        jdbc.queryForList("SCRIPT NODATA TABLE " + table, String.class).stream()
            .filter(statement -> INDEX.matcher(statement).find())
            .toList();
    for (String statement : made) {
      jdbc.execute(
          "DROP INDEX " + INDEX.matcher(statement).results().findFirst().orElseThrow().group(1));
    }
    return made;
  }

  private static boolean isH2(Connection connection) throws SQLException {
    return connection.getMetaData().getDatabaseProductName().equals("H2");
  }

  private void copy(String prefix) {
    String customer = "JOIN account_customer n ON n.code = CONCAT('" + prefix + "', c.code)";
    copyRows("account_customer c", "c", "account_customer", List.of("id"), List.of(), prefix, "");
    copyRows(
        "site_site s JOIN account_customer c ON c.id = s.customer_id " + customer,
        "s",
        "site_site",
        List.of("id", "customer_id"),
        List.of("customer_id", "n.id"),
        prefix,
        "s.code");
    String site =
        "JOIN site_site s ON s.id = y.site_id JOIN site_site t ON t.code = CONCAT('"
            + prefix
            + "', s.code)";
    copyRows(
        "site_system y " + site,
        "y",
        "site_system",
        List.of("id", "customer_id", "site_id"),
        List.of("customer_id", "t.customer_id", "site_id", "t.id"),
        prefix,
        "y.code");
    for (String table : List.of("ledger_revision", "ledger_month", "finding_finding")) {
      List<String> columns = columns(table);
      List<String> own = columns.stream().filter(c -> !List.of("id").contains(c)).toList();
      String values =
          own.stream()
              .map(
                  c ->
                      switch (c) {
                        case "customer_id" -> "z.customer_id";
                        case "site_id" -> "z.site_id";
                        case "system_id" -> "z.id";
                        default -> "r." + c;
                      })
              .collect(Collectors.joining(", "));
      jdbc.update(
          "INSERT INTO %s (%s) SELECT %s FROM %s r JOIN site_system y ON y.id = r.system_id JOIN site_system z ON z.code = CONCAT('%s', y.code) WHERE y.code LIKE '%s%%'"
              .formatted(table, String.join(", ", own), values, table, prefix, CODE));
    }
  }

  private void copyRows(
      String from,
      String alias,
      String table,
      List<String> without,
      List<String> instead,
      String prefix,
      String code) {
    List<String> own = columns(table).stream().filter(c -> !without.contains(c)).toList();
    List<String> names = new java.util.ArrayList<>(own);
    List<String> values =
        new java.util.ArrayList<>(
            own.stream()
                .map(
                    c ->
                        c.equals("code")
                            ? "CONCAT('" + prefix + "', " + alias + ".code)"
                            : alias + "." + c)
                .toList());
    for (int i = 0; i < instead.size(); i += 2) {
      names.add(instead.get(i));
      values.add(instead.get(i + 1));
    }
    jdbc.update(
        "INSERT INTO %s (%s) SELECT %s FROM %s WHERE %s LIKE '%s%%'"
            .formatted(
                table,
                String.join(", ", names),
                String.join(", ", values),
                from,
                code.isEmpty() ? alias + ".code" : code,
                CODE));
  }

  private List<String> columns(String table) {
    return jdbc.query(
        "SELECT * FROM " + table + " WHERE 1 = 0",
        rows -> {
          String[] names = new String[rows.getMetaData().getColumnCount()];
          for (int i = 0; i < names.length; i++) {
            names[i] = rows.getMetaData().getColumnName(i + 1).toLowerCase(java.util.Locale.ROOT);
          }
          return Arrays.asList(names);
        });
  }

  private void readMeters() {
    jdbc.update(
        """
        INSERT INTO site_meter (code, site_id, system_id, role, unit, created_at)
        SELECT CONCAT('M-', code), site_id, id, 'makeup', 'gal', CURRENT_TIMESTAMP FROM site_system
        """);
    jdbc.update(
        """
        INSERT INTO meter_register_reading (customer_id, meter_id, read_at, register, recorded_at,
          recorded_by)
        SELECT y.customer_id, m.id, CAST(x.month_start AS TIMESTAMP WITH TIME ZONE),
          1000 * (EXTRACT(YEAR FROM x.month_start) * 12 + EXTRACT(MONTH FROM x.month_start)),
          CURRENT_TIMESTAMP, 'invented'
        FROM site_meter m JOIN site_system y ON y.id = m.system_id
        JOIN ledger_month x ON x.system_id = y.id
        """);
    jdbc.update(
        """
        UPDATE site_meter SET last_read_at = (SELECT MAX(r.read_at) FROM meter_register_reading r
          WHERE r.meter_id = site_meter.id)
        """);
  }

  /** 1,830 days from the first of the first month; the SQL is the same on both databases. */
  private static final String DAYS =
      """
      (SELECT CAST(DATE '%s' AS TIMESTAMP WITH TIME ZONE) + (a.n + 10 * b.n + 100 * c.n + 1000 * d.n)
        * INTERVAL '1' DAY AS day_start
      FROM %s a CROSS JOIN %s b CROSS JOIN %s c CROSS JOIN (VALUES (0), (1)) AS d (n)
      WHERE a.n + 10 * b.n + 100 * c.n + 1000 * d.n < 1830) AS days
      """
          .formatted(FIRST.atDay(1), digits(), digits(), digits());

  private static String digits() {
    return "(SELECT g.n FROM (VALUES (0), (1), (2), (3), (4), (5), (6), (7), (8), (9)) AS g (n))";
  }

  private void logHours() {
    for (int hour = 0; hour < 24; hour++) {
      jdbc.update(
          """
          INSERT INTO meter_interval_volume (customer_id, meter_id, start_at, minutes, volume_l)
          SELECT y.customer_id, m.id, days.day_start + INTERVAL '%d' HOUR, 60, 500 + 40 * %d
          FROM site_meter m JOIN site_system y ON y.id = m.system_id CROSS JOIN %s
          WHERE %s
          """
              .formatted(hour, hour % 12, DAYS, isLogged()));
    }
  }

  private void logVisits() {
    String weekly = " AND EXTRACT(DAY FROM days.day_start) IN (1, 8, 15, 22)";
    jdbc.update(
        """
        INSERT INTO logsheet_pressure (customer_id, system_id, taken_at, supply_kpa, valve_inlet_kpa)
        SELECT y.customer_id, y.id, days.day_start, 500, 420
        FROM site_system y CROSS JOIN %s WHERE %s %s
        """
            .formatted(DAYS, isLogged(), weekly));
    jdbc.update(
        """
        INSERT INTO logsheet_water_sample (customer_id, system_id, taken_at,
          makeup_conductivity_us_cm, basin_conductivity_us_cm)
        SELECT y.customer_id, y.id, days.day_start, 300, 1200
        FROM site_system y CROSS JOIN %s WHERE %s %s
        """
            .formatted(DAYS, isLogged(), weekly));
    jdbc.update(
        """
        INSERT INTO logsheet_visit (customer_id, system_id, visited_at, findings, observation)
        SELECT y.customer_id, y.id, days.day_start, 'level-normal', 'looked at the basin'
        FROM site_system y CROSS JOIN %s WHERE %s AND EXTRACT(DAY FROM days.day_start) = 1
        """
            .formatted(DAYS, isLogged()));
  }

  private static String isLogged() {
    StringBuilder codes = new StringBuilder("y.code IN (");
    for (int i = 0; i < LOGGED; i++) {
      codes.append(i == 0 ? "'" : ", '").append(logged(i)).append('\'');
    }
    return codes.append(')').toString();
  }

  private long number(String sql) {
    Long number = jdbc.queryForObject(sql, Long.class);
    return number == null ? 0 : number;
  }
}
