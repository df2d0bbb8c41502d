package towerledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import org.junit.jupiter.api.Test;

class TowerLedgerApplicationTest {

  @Test
  void theEmbeddedDatabaseTakesAFolderAsPeopleWriteIt() throws Exception {
    Path home = Files.createDirectories(Path.of("target", "relative-" + System.nanoTime()));
    String bare = home.toString();

    assertThatThrownBy(() -> open(bare)).hasMessageContaining("implicitly relative");

    try (Connection connection = open(TowerLedgerApplication.wholePath(bare))) {
      assertThat(connection.isValid(1)).isTrue();
    }
    assertThat(home.resolve("ledger.mv.db")).exists();
  }

  private static Connection open(String folder) throws SQLException {
    return DriverManager.getConnection("jdbc:h2:file:" + folder + "/ledger");
  }
}
