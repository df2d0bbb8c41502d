package towerledger.security;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.test.web.server.LocalServerPort;
import towerledger.ApplicationOnH2;

/**
 * Requests that the servlet container or the firewall refuses before any handler, over a plain
 * socket, as no client would send them. Problem details are those of RFC 9457.
 */
@ApplicationOnH2
class UnreadableRequestsIT {

  @LocalServerPort int port;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "GET /api/v1/%zz HTTP/1.1",
        "GET /api/v1/a%00b HTTP/1.1",
        "GET /api/v1/a%2fb HTTP/1.1",
        "GET /api/v1/a;b/c HTTP/1.1",
        "GET /api/v1/../../x HTTP/1.1",
        "FOO /api/v1/jobs HTTP/1.1",
        "GET /api/v1/jobs HTTP/1.1\r\nno colon here",
        "GET /api/v1/jobs HTTP/1.1\r\nX-Long: "
      })
  void getsAProblemDetailBelowTheApi(String head) throws IOException {
    String answer = answer(head);
    assertThat(answer)
        .startsWith("HTTP/1.1 400")
        .contains("Content-Type: application/problem+json")
        .contains("\"status\":400", "The request cannot be read: ")
        .doesNotContain("/error");
    assertGuarded(answer);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "GET /%zz HTTP/1.1",
        "GET /a|b HTTP/1.1",
        "GET /people;a/b HTTP/1.1",
        "G{T / HTTP/1.1",
        "GET /sign-in HTTP/1.1\r\nX-Long: "
      })
  void getsAPlainPageElsewhere(String head) throws IOException {
    String answer = answer(head);
    assertThat(answer)
        .startsWith("HTTP/1.1 400")
        .containsIgnoringCase("Content-Type: text/html;charset=UTF-8")
        .contains("That could not be read")
        .doesNotContain("style=", "<style");
    assertGuarded(answer);
  }

  private static void assertGuarded(String answer) {
    assertThat(answer)
        .contains("X-Content-Type-Options: nosniff")
        .contains("X-Frame-Options: DENY")
        .contains("Content-Security-Policy: default-src 'none'")
        .contains("no-store");
  }

  /** What is answered to the first lines of a request; one that ends open is too long. */
  private String answer(String lines) throws IOException {
    String head = lines.endsWith(": ") ? lines + "a".repeat(9_000) : lines;
    try (Socket socket = new Socket("localhost", port)) {
      socket
          .getOutputStream()
          .write(
              (head + "\r\nHost: localhost\r\nConnection: close\r\n\r\n")
                  .getBytes(StandardCharsets.ISO_8859_1));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
