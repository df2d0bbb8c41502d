package towerledger.report.delivery;

import jakarta.mail.Session;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.mail.MailException;
import org.springframework.mail.javamail.JavaMailSenderImpl;
import towerledger.account.SmtpAnswer;

/**
 * The way to the mail relay. When it cannot be spoken to, this node leaves it alone for a while
 * that doubles, so that a thousand waiting mails do not each wait for a dead connection.
 */
public final class Relay {

  private static final Duration FIRST_REST = Duration.ofSeconds(30);
  private static final Duration LONGEST_REST = Duration.ofMinutes(10);

  private final @Nullable JavaMailSenderImpl sender;
  private final MailSettings settings;
  private final Clock clock;
  private Instant restUntil = Instant.EPOCH;
  private Duration rest = FIRST_REST;

  public Relay(@Nullable JavaMailSenderImpl sender, MailSettings settings, Clock clock) {
    this.sender =
        sender == null || sender.getHost() == null || sender.getHost().isBlank() ? null : sender;
    this.settings = settings;
    this.clock = clock;
  }

  /** Whether a relay and a sender are set. */
  public boolean isSet() {
    return sender != null && settings.from() != null;
  }

  /** What is missing before anything can be sent; empty when nothing is. */
  public Optional<String> missing() {
    if (sender == null) {
      return Optional.of("SPRING_MAIL_HOST");
    }
    return settings.from() == null ? Optional.of("towerledger.mail.from") : Optional.empty();
  }

  /** Until when the relay is left alone; empty when it is not. */
  synchronized Optional<Instant> restsUntil() {
    return clock.instant().isBefore(restUntil) ? Optional.of(restUntil) : Optional.empty();
  }

  /** What messages are made in. */
  Session session() {
    if (sender == null) {
      throw new IllegalStateException("no mail relay is set");
    }
    return sender.getSession();
  }

  /** Hands a message over and says what came of it. */
  SmtpAnswer send(jakarta.mail.internet.MimeMessage message) {
    if (sender == null) {
      throw new IllegalStateException("no mail relay is set");
    }
    try {
      sender.send(message);
      awake();
      return SmtpAnswer.accepted();
    } catch (MailException e) {
      SmtpAnswer answer = SmtpAnswer.of(e);
      if (answer.kind() == SmtpAnswer.Kind.NO_RELAY) {
        takeRest();
      } else {
        awake();
      }
      return answer;
    }
  }

  private synchronized void takeRest() {
    Instant now = clock.instant();
    if (!now.isBefore(restUntil)) {
      restUntil = now.plus(rest);
      Duration doubled = rest.multipliedBy(2);
      rest = doubled.compareTo(LONGEST_REST) > 0 ? LONGEST_REST : doubled;
    }
  }

  private synchronized void awake() {
    rest = FIRST_REST;
    restUntil = Instant.EPOCH;
  }
}
