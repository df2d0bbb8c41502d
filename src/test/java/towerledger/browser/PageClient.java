package towerledger.browser;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.regex.Pattern;
import java.util.zip.GZIPInputStream;

/** Asks a ledger on this machine for its pages, signed in as its first person or as a stranger. */
final class PageClient {

  private final String address;
  private final HttpClient client;

  private PageClient(int port, HttpClient client) {
    this.address = "http://localhost:" + port;
    this.client = client;
  }

  /** Somebody without a cookie, now and later. */
  static PageClient stranger(int port) {
    return new PageClient(port, HttpClient.newHttpClient());
  }

  /** Somebody signed in. */
  static PageClient signedIn(int port, String email, String password)
      throws IOException, InterruptedException {
    PageClient client =
        new PageClient(port, HttpClient.newBuilder().cookieHandler(new CookieManager()).build());
    client.signIn(email, password);
    return client;
  }

  /** A page that there is, compressed as it was sent. */
  CompletableFuture<HttpResponse<byte[]>> ask(String path) {
    return client
        .sendAsync(request(path).build(), BodyHandlers.ofByteArray())
        .thenApply(
            answer -> {
              if (answer.statusCode() != 200) {
                throw new IllegalStateException(path + " is answered with " + answer.statusCode());
              }
              return answer;
            });
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(address + path))
        .timeout(Duration.ofMinutes(1))
        .header("Accept-Encoding", "gzip");
  }

  private void signIn(String email, String password) throws IOException, InterruptedException {
    String page = text(client.send(request("/sign-in").build(), BodyHandlers.ofByteArray()));
    String token =
        Pattern.compile("name=\"_csrf\"[^>]*value=\"([^\"]+)\"")
            .matcher(page)
            .results()
            .map(found -> found.group(1))
            .findFirst()
            .orElseThrow();
    String form =
        "email=%s&password=%s&_csrf=%s"
            .formatted(
                URLEncoder.encode(email, StandardCharsets.UTF_8),
                URLEncoder.encode(password, StandardCharsets.UTF_8),
                URLEncoder.encode(token, StandardCharsets.UTF_8));
    var answer =
        client.send(
            request("/sign-in")
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(form))
                .build(),
            BodyHandlers.ofByteArray());
    String to = answer.headers().firstValue("Location").orElse("");
    if (answer.statusCode() >= 400 || to.contains("sign-in")) {
      throw new IllegalStateException(
          "signing in is answered with %d and leads to %s".formatted(answer.statusCode(), to));
    }
  }

  /** An answer as text. */
  static String text(HttpResponse<byte[]> answer) throws IOException {
    byte[] body = answer.body();
    Optional<String> encoding = answer.headers().firstValue("Content-Encoding");
    if (encoding.filter("gzip"::equals).isPresent()) {
      try (var in = new GZIPInputStream(new ByteArrayInputStream(body))) {
        body = in.readAllBytes();
      }
    }
    return new String(body, StandardCharsets.UTF_8);
  }
}
