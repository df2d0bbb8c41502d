package towerledger.security;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;

/**
 * Ten thousand guesses from forty addresses at five logins, over real connections: few are looked
 * at, and whoever is signed in, holds a token or comes from their own browser is served all along.
 * The addresses are of the loopback network, which Linux has 16 million of.
 */
@ApplicationOnH2
@Tag("drill")
class SignInFloodDrillIT {

  private static final int GUESSES = 10_000;
  private static final int ADDRESSES = 40;
  private static final int LOGINS = 5;

  /** {@code guessesPerLogin} of the limits, for each login, and some that flowed back meanwhile. */
  private static final int MOST_LOOKED_AT = LOGINS * (100 + 20);

  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;
  @LocalServerPort int port;

  private record Answer(int status, String head, String body) {

    String cookie(String name) {
      var found = Pattern.compile("(?i)set-cookie: " + name + "=([^;]*)").matcher(head);
      assertThat(found.find()).as("cookie %s in %s", name, head).isTrue();
      return found.group(1);
    }
  }

  @Test
  void boundsTenThousandGuessesAndServesEverybodyElse() throws Exception {
    for (int login = 0; login < LOGINS; login++) {
      long id = signedIn.technician("flood" + login + "@flood.test").personId();
      jdbc.sql(
              """
              UPDATE account_person SET password_hash =
                (SELECT password_hash FROM account_person WHERE email = ?) WHERE id = ?""")
          .params(signedIn.adminEmail(), id)
          .update();
    }
    String token = signedIn.token(signedIn.office());
    // Somebody under attack has signed in before from a browser of their own.
    Answer first = signIn("127.9.0.1", "flood0@flood.test", signedIn.adminPassword(), "");
    assertThat(first.status()).isEqualTo(302);
    String device = "TOWERLEDGER_DEVICE=" + first.cookie("TOWERLEDGER_DEVICE");
    String session = "TOWERLEDGER_SESSION=" + first.cookie("TOWERLEDGER_SESSION");

    Map<Integer, AtomicInteger> answers = new ConcurrentHashMap<>();
    AtomicInteger sent = new AtomicInteger();
    ExecutorService guessers = Executors.newFixedThreadPool(32);
    List<Future<?>> work = new ArrayList<>();
    for (int guesser = 0; guesser < 32; guesser++) {
      Callable<Void> guessing =
          () -> {
            for (int n = sent.getAndIncrement(); n < GUESSES; n = sent.getAndIncrement()) {
              int status = guess(n);
              answers.computeIfAbsent(status, s -> new AtomicInteger()).incrementAndGet();
            }
            return null;
          };
      work.add(guessers.submit(guessing));
    }
    int served = 0;
    while (sent.get() < GUESSES) {
      assertThat(get("127.9.0.2", "/me", "Cookie: " + session).status()).isEqualTo(200);
      assertThat(get("127.9.0.3", "/api/v1/jobs/none", "Authorization: Bearer " + token).status())
          .isEqualTo(404);
      served++;
      Thread.sleep(50);
    }
    for (Future<?> done : work) {
      done.get();
    }
    guessers.shutdown();

    assertThat(answers.keySet()).as("refused or told to wait: %s", answers).containsOnly(401, 429);
    int looked = answers.get(401).get();
    assertThat(looked).as("guesses looked at").isLessThanOrEqualTo(MOST_LOOKED_AT);
    assertThat(served).as("rounds of others served meanwhile").isGreaterThan(3);
    assertThat(signIn("127.9.0.4", "flood0@flood.test", signedIn.adminPassword(), device).status())
        .as("the attacked person, from their own browser at a new address")
        .isEqualTo(302);
    assertThat(signIn("127.9.0.4", "flood0@flood.test", signedIn.adminPassword(), device).head())
        .doesNotContain("sign-in?wait");
    // A few guesses flow back every minute; whoever takes more is told when to come back.
    Answer stranger = token("127.9.0.5", "flood0@flood.test", "wrong");
    for (int n = 0; n < 11 && stranger.status() == 401; n++) {
      stranger = token("127.9.0.5", "flood0@flood.test", "wrong");
    }
    assertThat(stranger.status()).isEqualTo(429);
    assertThat(stranger.head()).containsPattern("(?i)retry-after: [1-9]");
  }

  private int guess(int n) throws IOException {
    String address = "127.8.0." + (n % ADDRESSES + 1);
    return token(address, "flood" + n % LOGINS + "@flood.test", "guess " + n).status();
  }

  private Answer token(String from, String email, String password) throws IOException {
    String basic =
        Base64.getEncoder()
            .encodeToString((email + ":" + password).getBytes(StandardCharsets.UTF_8));
    return send(
        from,
        "POST /api/v1/tokens HTTP/1.1\r\nAuthorization: Basic "
            + basic
            + "\r\nContent-Type: application/json\r\nContent-Length: 12",
        "{\"name\":\"x\"}");
  }

  private Answer signIn(String from, String email, String password, String cookie)
      throws IOException {
    Answer form = get(from, "/sign-in", "Cookie: " + cookie);
    var token = Pattern.compile("name=\"_csrf\" value=\"([^\"]+)\"").matcher(form.body());
    assertThat(token.find()).isTrue();
    String body =
        "_csrf=%s&email=%s&password=%s"
            .formatted(
                java.net.URLEncoder.encode(token.group(1), StandardCharsets.UTF_8),
                java.net.URLEncoder.encode(email, StandardCharsets.UTF_8),
                java.net.URLEncoder.encode(password, StandardCharsets.UTF_8));
    return send(
        from,
        "POST /sign-in HTTP/1.1\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: "
            + body.length()
            + "\r\nCookie: TOWERLEDGER_SESSION="
            + form.cookie("TOWERLEDGER_SESSION")
            + "; "
            + cookie,
        body);
  }

  private Answer get(String from, String path, String header) throws IOException {
    return send(from, "GET " + path + " HTTP/1.1\r\n" + header, "");
  }

  private Answer send(String from, String head, String body) throws IOException {
    try (Socket socket =
        new Socket(InetAddress.getByName("127.0.0.1"), port, InetAddress.getByName(from), 0)) {
      socket.setSoTimeout(60_000);
      socket
          .getOutputStream()
          .write(
              (head + "\r\nHost: localhost\r\nConnection: close\r\n\r\n" + body)
                  .getBytes(StandardCharsets.UTF_8));
      InputStream in = socket.getInputStream();
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      int end = text.indexOf("\r\n\r\n");
      return new Answer(
          Integer.parseInt(text.substring(9, 12)), text.substring(0, end), text.substring(end + 4));
    }
  }
}
