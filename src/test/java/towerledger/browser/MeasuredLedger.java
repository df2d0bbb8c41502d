package towerledger.browser;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.context.support.GenericApplicationContext;
import org.springframework.jdbc.core.JdbcTemplate;
import towerledger.TowerLedgerApplication;

/**
 * The ledger with its {@link LargeBook}, in a folder that keeps the database for the next time. The
 * embedded database is the ledger's own, settings and all.
 */
final class MeasuredLedger {

  static final String PASSWORD = "a drill at the tower 4711";
  static final String EMAIL = "speed@ledger.example";

  private MeasuredLedger() {}

  /** What is done with it. */
  interface Use {
    void with(ConfigurableApplicationContext context) throws Exception;
  }

  /**
   * Starts it, writes the book where there is none, and stops it after use.
   *
   * @param database {@code h2} or {@code postgres}
   * @param added beans beside its own
   */
  static void on(
      String database,
      Path folder,
      ApplicationContextInitializer<GenericApplicationContext> added,
      Use use)
      throws Exception {
    if (!database.equals("postgres")) {
      run(List.of(), folder, added, use);
      return;
    }
    try (EmbeddedPostgres server =
        EmbeddedPostgres.builder()
            .setDataDirectory(folder.resolve("postgres"))
            .setCleanDataDirectory(false)
            .setServerConfig("shared_buffers", "512MB")
            .start()) {
      String address = server.getJdbcUrl("postgres", "postgres");
      run(List.of("--spring.datasource.url=" + address), folder, added, use);
    }
  }

  private static void run(
      List<String> database,
      Path folder,
      ApplicationContextInitializer<GenericApplicationContext> added,
      Use use)
      throws Exception {
    List<String> settings = new ArrayList<>(database);
    settings.add("--server.port=0");
    settings.add("--TOWERLEDGER_DATA=" + folder.toAbsolutePath());
    settings.add("--TOWERLEDGER_ADMIN_EMAIL=" + EMAIL);
    settings.add("--TOWERLEDGER_ADMIN_PASSWORD=" + PASSWORD);
    try (ConfigurableApplicationContext context =
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .initializers(fresh -> added.initialize((GenericApplicationContext) fresh))
            .run(settings.toArray(String[]::new))) {
      LargeBook book = new LargeBook(context);
      if (!book.isWritten()) {
        long begun = System.nanoTime();
        book.write();
        System.out.printf("written in %.0f s%n", (System.nanoTime() - begun) / 1e9);
        context
            .getBean(JdbcTemplate.class)
            .execute(database.isEmpty() ? "ANALYZE" : "VACUUM ANALYZE");
      }
      use.with(context);
    }
  }

  /** The port it answers at. */
  static int port(ConfigurableApplicationContext context) {
    return context.getEnvironment().getRequiredProperty("local.server.port", Integer.class);
  }
}
