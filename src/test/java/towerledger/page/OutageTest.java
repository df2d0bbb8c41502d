package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.servlet.ServletException;
import java.io.IOException;
import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.context.support.ResourceBundleMessageSource;
import org.springframework.jdbc.UncategorizedSQLException;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.web.multipart.MultipartException;
import tools.jackson.databind.json.JsonMapper;

/**
 * RFC 4918, section 11.5: 507 says that there is no room, and no fault of the request. RFC 9110,
 * section 15.6.4: 503 says that it will likely be taken later, and may say when.
 */
class OutageTest {

  private final MockHttpServletResponse response = new MockHttpServletResponse();

  @Test
  void isToldAsSuchWhereverItShowed() throws IOException {
    tell(
        new MultipartException(
            "Failed to parse", new RuntimeException(new IOException("No space left on device"))));
    assertThat(response.getStatus()).isEqualTo(507);
    assertThat(response.getContentAsString()).contains("The disk of the ledger is full");
  }

  @ParameterizedTest
  @MethodSource("awayDatabases")
  void asksToComeBackWhereTheDatabaseIsAway(Exception failure) throws IOException {
    tell(failure);
    assertThat(response.getStatus()).isEqualTo(503);
    assertThat(response.getHeader("Retry-After")).isEqualTo("30");
    assertThat(response.getContentAsString())
        .contains("The database does not answer")
        .doesNotContain("Connection is not available");
  }

  static Stream<Exception> awayDatabases() {
    return Stream.of(
        new CannotCreateTransactionException(
            "no transaction",
            new SQLTransientConnectionException(
                "HikariPool-1 - Connection is not available, request timed out after 10000ms")),
        new ServletException(new SQLException("terminating connection", "57P01")),
        new UncategorizedSQLException(
            "asking", "SELECT 1", new SQLException("An I/O error occurred", "08006")));
  }

  @Test
  void leavesAStatementThatIsWrongAlone() {
    tell(new UncategorizedSQLException("asking", "SELEC", new SQLException("syntax", "42601")));
    assertThat(response.getStatus()).isEqualTo(200);
  }

  @Test
  void isNotBlamedForAnUploadThatBrokeOff() {
    tell(new MultipartException("Failed to parse", new IOException("Stream ended unexpectedly")));
    assertThat(response.getStatus()).isEqualTo(200);
  }

  private void tell(Exception failure) {
    var messages = new ResourceBundleMessageSource();
    messages.setBasename("messages");
    messages.setDefaultEncoding("UTF-8");
    new Outage(new BareAnswer(messages, new JsonMapper()))
        .resolveException(
            new MockHttpServletRequest("POST", "/intake"), response, new Object(), failure);
  }
}
