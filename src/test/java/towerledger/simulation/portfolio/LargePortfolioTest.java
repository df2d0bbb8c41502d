package towerledger.simulation.portfolio;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.YearMonth;
import java.util.List;
import org.flywaydb.core.Flyway;
import org.h2.jdbcx.JdbcDataSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.jdbc.core.simple.JdbcClient;

class LargePortfolioTest {

  private static final PortfolioPlan PLAN = new PortfolioPlan(20, YearMonth.of(2025, 5), 2, 3);

  @Test
  void fitsTheTables() {
    JdbcDataSource database = new JdbcDataSource();
    database.setUrl("jdbc:h2:mem:portfolio;DB_CLOSE_DELAY=-1");
    Flyway.configure().dataSource(database).locations("classpath:db/migration").load().migrate();

    LargePortfolio.writeRows(PLAN, database);

    JdbcClient jdbc = JdbcClient.create(database);
    assertThat(count(jdbc, "site_system")).isEqualTo(20);
    assertThat(count(jdbc, "site_meter")).isEqualTo(20);
    assertThat(count(jdbc, "meter_register_reading")).isGreaterThanOrEqualTo(20 * 4);
    assertThat(count(jdbc, "meter_interval_volume")).isEqualTo(2 * 61 * 24);
    assertThat(count(jdbc, "logsheet_heat_load")).isGreaterThan(2 * 61 * 24);
    assertThat(count(jdbc, "weather_hour")).isEqualTo(4 * 61 * 24);
  }

  @Test
  void fitsABundle(@TempDir Path folder) throws IOException {
    LargePortfolio.writeBundle(PLAN, folder);

    List<String> readings = Files.readAllLines(folder.resolve("register_readings.csv"));
    assertThat(readings.get(0)).isEqualTo("meter,read_at,register");
    assertThat(readings).hasSizeGreaterThan(80);
    assertThat(Files.readAllLines(folder.resolve("interval_volumes.csv"))).hasSize(1 + 2 * 61 * 24);
  }

  private static int count(JdbcClient jdbc, String table) {
    return jdbc.sql("SELECT COUNT(*) FROM " + table).query(Integer.class).single();
  }
}
