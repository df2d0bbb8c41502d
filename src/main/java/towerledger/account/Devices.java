package towerledger.account;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseCookie;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The browsers a person has signed in from, each known by a random cookie. */
@Component
public class Devices {

  private static final Duration REMEMBERED = Duration.ofDays(180);

  private final JdbcClient jdbc;
  private final Clock clock;

  Devices(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /** Hash of the device if this person has signed in from it before, else null. */
  @Nullable String known(long personId, @Nullable String device) {
    if (device == null) {
      return null;
    }
    String hash = Secrets.hash(device);
    boolean known =
        jdbc.sql(
                    """
                    SELECT COUNT(*) FROM account_device
                    WHERE person_id = ? AND device_hash = ? AND last_used_at > ?""")
                .params(personId, hash, now().minus(REMEMBERED))
                .query(Long.class)
                .single()
            > 0;
    return known ? hash : null;
  }

  /** Remembers the browser of a request for the person who just signed in there. */
  public void remember(long personId, HttpServletRequest request, HttpServletResponse response) {
    String present = SignInAttempt.of(request).device();
    String device = present == null || present.length() < 40 ? Secrets.random() : present;
    String hash = Secrets.hash(device);
    int changed =
        jdbc.sql(
                "UPDATE account_device SET last_used_at = ? WHERE person_id = ? AND device_hash = ?")
            .params(now(), personId, hash)
            .update();
    if (changed == 0) {
      insert(personId, hash);
    }
    response.addHeader(
        HttpHeaders.SET_COOKIE,
        ResponseCookie.from(SignInAttempt.DEVICE_COOKIE, device)
            .path("/")
            .httpOnly(true)
            .secure(request.isSecure())
            .sameSite("Lax")
            .maxAge(REMEMBERED)
            .build()
            .toString());
  }

  private void insert(long personId, String hash) {
    try {
      jdbc.sql("INSERT INTO account_device (person_id, device_hash, last_used_at) VALUES (?, ?, ?)")
          .params(personId, hash, now())
          .update();
    } catch (DuplicateKeyException e) {
      // two tabs signed in at once; the row is there, which is all that was wanted
      return;
    }
  }

  /** Forgets all browsers of a person, as a new password does. */
  void forget(long personId) {
    jdbc.sql("DELETE FROM account_device WHERE person_id = ?").param(personId).update();
  }

  private OffsetDateTime now() {
    return OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC);
  }
}
