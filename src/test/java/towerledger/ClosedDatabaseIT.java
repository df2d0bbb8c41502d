package towerledger;

import static java.util.concurrent.TimeUnit.SECONDS;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.web.client.RestClient;

/** An embedded database that cannot write closes itself; the ledger opens it again. */
class ClosedDatabaseIT {

  @TempDir Path folder;

  @Test
  void goesOnWhenThereIsRoomAgain() {
    SmallDisk.ready();
    try (ConfigurableApplicationContext ledger =
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .run(
                "--server.port=0",
                "--spring.datasource.url=jdbc:h2:small:"
                    + folder
                    + "/ledger;WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE;CASE_INSENSITIVE_IDENTIFIERS=TRUE")) {
      JdbcClient database = ledger.getBean(JdbcClient.class);
      database.sql("CREATE TABLE acknowledged (x VARCHAR)").update();
      database.sql("INSERT INTO acknowledged VALUES ('before')").update();

      SmallDisk.fill(true);
      assertThatThrownBy(
              () -> database.sql("INSERT INTO acknowledged SELECT REPEAT('x', 9000000)").update())
          .isInstanceOf(DataAccessException.class);
      SmallDisk.fill(false);

      RestClient client =
          RestClient.create(
              "http://localhost:" + ledger.getEnvironment().getProperty("local.server.port"));
      await()
          .atMost(20, SECONDS)
          .ignoreExceptions()
          .untilAsserted(
              () ->
                  assertThat(client.get().uri("/sign-in").retrieve().body(String.class))
                      .contains("<form"));
      assertThat(database.sql("SELECT x FROM acknowledged").query(String.class).list())
          .containsExactly("before");
    }
  }
}
