package towerledger;

import java.util.Map;
import java.util.UUID;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.env.MapPropertySource;

/** Gives an application under test a database of its own and a first office account. */
final class FreshDatabase {

  static final String ADMIN_EMAIL = "office@ledger.test";
  static final String ADMIN_PASSWORD = "rain on the roof at noon";

  private FreshDatabase() {}

  static final class OnH2 implements ApplicationContextInitializer<ConfigurableApplicationContext> {
    @Override
    public void initialize(ConfigurableApplicationContext context) {
      configure(
          context,
          "jdbc:h2:mem:"
              + UUID.randomUUID()
              + ";DB_CLOSE_DELAY=-1;DB_CLOSE_ON_EXIT=FALSE;CASE_INSENSITIVE_IDENTIFIERS=TRUE");
    }
  }

  static final class OnPostgres
      implements ApplicationContextInitializer<ConfigurableApplicationContext> {
    @Override
    public void initialize(ConfigurableApplicationContext context) {
      configure(context, Postgres.newDatabase("application"));
    }
  }

  private static void configure(ConfigurableApplicationContext context, String databaseUrl) {
    context
        .getEnvironment()
        .getPropertySources()
        .addFirst(
            new MapPropertySource(
                "fresh database",
                Map.of(
                    "spring.datasource.url",
                    databaseUrl,
                    "spring.mail.host",
                    "127.0.0.1",
                    "spring.mail.port",
                    MailServer.port(),
                    "TOWERLEDGER_MAIL_REQUIRE_TLS",
                    "false",
                    "TOWERLEDGER_ADMIN_EMAIL",
                    ADMIN_EMAIL,
                    "TOWERLEDGER_ADMIN_PASSWORD",
                    ADMIN_PASSWORD)));
  }
}
