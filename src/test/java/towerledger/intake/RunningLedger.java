package towerledger.intake;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.UUID;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.Postgres;
import towerledger.TowerLedgerApplication;

/** The whole program on an empty database of its own, started once for all tests of this package. */
final class RunningLedger {

  /** Which database it runs on. */
  enum Database {
    H2,
    POSTGRESQL
  }

  private static final Map<Database, RunningLedger> RUNNING = new EnumMap<>(Database.class);

  private final ConfigurableApplicationContext context;

  private RunningLedger(ConfigurableApplicationContext context) {
    this.context = context;
  }

  static synchronized RunningLedger on(Database database) {
    return RUNNING.computeIfAbsent(database, RunningLedger::start);
  }

  private static RunningLedger start(Database database) {
    String url =
        database == Database.H2
            ? "jdbc:h2:mem:" + UUID.randomUUID() + ";DB_CLOSE_DELAY=-1"
            : Postgres.newDatabase("intake");
    return new RunningLedger(
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .run(
                "--spring.datasource.url=" + url,
                "--spring.datasource.hikari.maximum-pool-size=6",
                "--server.port=0",
                "--db-scheduler.enabled=false",
                "--spring.main.banner-mode=off",
                "--logging.level.root=warn"));
  }

  <T> T bean(Class<T> type) {
    return context.getBean(type);
  }

  JdbcClient jdbc() {
    return bean(JdbcClient.class);
  }

  /** Empties every table that imports fill. */
  RunningLedger emptied() {
    for (String table :
        new String[] {
          "intake_quarantine",
          "intake_file",
          "intake_import",
          "ledger_stale",
          "meter_register_correction",
          "meter_register_reading",
          "meter_interval_correction",
          "meter_interval_volume",
          "logsheet_correction",
          "logsheet_water_sample",
          "logsheet_pressure",
          "logsheet_heat_load",
          "logsheet_visit",
          "weather_correction",
          "weather_hour",
          "weather_station",
          "tariff_utility_bill",
          "tariff_block",
          "tariff_charge",
          "tariff_schedule",
          "site_meter",
          "site_setting",
          "site_tower",
          "site_system",
          "site_site",
          "job_run",
          "account_change",
          "account_customer"
        }) {
      jdbc().sql("DELETE FROM " + table).update();
    }
    return this;
  }

  /** Imports files given as name and text. */
  ImportReceipt take(Map<String, String> files) {
    try {
      Path folder = Files.createTempDirectory("upload");
      try {
        for (var file : files.entrySet()) {
          Files.writeString(folder.resolve(file.getKey()), file.getValue());
        }
        return take(folder);
      } finally {
        try (var left = Files.list(folder)) {
          left.forEach(file -> file.toFile().delete());
        }
        Files.delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  ImportReceipt take(Path folderOrZip) {
    try (var upload = Upload.of(folderOrZip)) {
      return bean(Importer.class).take(upload, ImportRequest.startUp("test"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  long count(String table) {
    return jdbc().sql("SELECT COUNT(*) FROM " + table).query(Long.class).single();
  }
}
