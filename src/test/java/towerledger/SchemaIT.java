package towerledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.h2.jdbcx.JdbcDataSource;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The migrations make the same logical schema on both databases, and its checks refuse. */
class SchemaIT {

  static Stream<Named<DataSource>> databases() {
    return Stream.of(
        Named.of("H2", h2()),
        Named.of("PostgreSQL", Postgres.dataSource(Postgres.newDatabase("schema"))));
  }

  private static DataSource h2() {
    var source = new JdbcDataSource();
    source.setURL("jdbc:h2:mem:" + UUID.randomUUID() + ";DB_CLOSE_DELAY=-1");
    return source;
  }

  private static void migrate(DataSource database) {
    Flyway.configure().dataSource(database).locations("classpath:db/migration").load().migrate();
  }

  @ParameterizedTest
  @MethodSource("databases")
  void refusesWhatTheCodeRefuses(DataSource database) {
    migrate(database);
    var jdbc = JdbcClient.create(database);
    jdbc.sql(
            """
            INSERT INTO account_customer (code, name, created_at)
            VALUES ('C1', 'A customer', CURRENT_TIMESTAMP)""")
        .update();
    jdbc.sql(
            """
            INSERT INTO site_site (code, customer_id, name, time_zone, created_at)
            SELECT 'S1', id, 'A site', 'UTC', CURRENT_TIMESTAMP FROM account_customer""")
        .update();
    jdbc.sql(
            """
            INSERT INTO site_system (code, site_id, customer_id, name, created_at)
            SELECT 'Y1', id, customer_id, 'A system', CURRENT_TIMESTAMP FROM site_site""")
        .update();

    assertRefused(
        jdbc,
        "meter_interval_volume_volume_ck",
        "INSERT INTO meter_interval_volume VALUES (1, 1, CURRENT_TIMESTAMP, 15, -1)");
    assertRefused(
        jdbc,
        "tariff_utility_bill_span_ck",
        """
        INSERT INTO tariff_utility_bill (customer_id, site_id, service, from_date, to_date)
        SELECT customer_id, id, 'water', DATE '2026-02-01', DATE '2026-01-01' FROM site_site""");
    assertRefused(
        jdbc,
        "site_tower_range_ck",
        """
        INSERT INTO site_tower
          (code, system_id, name, nominal_kw, design_hot_water_c, design_cold_water_c, created_at)
        SELECT 'T1', id, 'A tower', 100, 28, 35, CURRENT_TIMESTAMP FROM site_system""");
    assertRefused(
        jdbc,
        "logsheet_heat_load_span_ck",
        """
        INSERT INTO logsheet_heat_load (customer_id, system_id, start_at, end_at)
        SELECT customer_id, id, TIMESTAMP WITH TIME ZONE '2026-02-01 00:00:00+00',
          TIMESTAMP WITH TIME ZONE '2026-02-01 00:00:00+00' FROM site_system""");
  }

  private static void assertRefused(JdbcClient jdbc, String constraint, String sql) {
    assertThatThrownBy(() -> jdbc.sql(sql).update())
        .isInstanceOf(DataAccessException.class)
        .satisfies(e -> assertThat(e.getMessage().toLowerCase(Locale.ROOT)).contains(constraint));
  }

  @Test
  void bothDatabasesHaveTheSameColumns() {
    var columns = databases().map(named -> columns(named.getPayload())).toList();

    assertThat(columns.get(0)).hasSizeGreaterThan(200).isEqualTo(columns.get(1));
  }

  private static List<String> columns(DataSource database) {
    migrate(database);
    return JdbcClient.create(database)
        .sql(
            """
            SELECT LOWER(table_name) || '.' || LOWER(column_name) || ' ' || is_nullable AS c
            FROM information_schema.columns
            WHERE LOWER(table_schema) = 'public' AND LOWER(table_name) <> 'flyway_schema_history'
            ORDER BY 1""")
        .query(String.class)
        .list()
        .stream()
        .sorted()
        .toList();
  }
}
