package towerledger.report.delivery;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import towerledger.account.SmtpAnswer;

/**
 * Carries a mail of the outbox to the relay and writes down what came of it. Between the relay's
 * word and ours a node may die: the mail is then carried again, under the same name.
 */
public final class Courier {

  private static final Logger log = LoggerFactory.getLogger(Courier.class);

  /** Rests after each attempt that was put off; the last one repeats. */
  private static final List<Duration> RESTS =
      List.of(
          Duration.ofMinutes(1),
          Duration.ofMinutes(5),
          Duration.ofMinutes(15),
          Duration.ofHours(1),
          Duration.ofHours(3),
          Duration.ofHours(6),
          Duration.ofHours(12));

  /** RFC 5321, 4.5.4.1: the give-up time generally needs to be at least four to five days. */
  private static final Duration GIVES_UP_AFTER = Duration.ofDays(5);

  /** How long mails wait between looks for a relay that is not set. */
  private static final Duration UNSET_REST = Duration.ofMinutes(15);

  private final Outbox outbox;
  private final Relay relay;
  private final MessageWriter writer;
  private final Clock clock;

  public Courier(Outbox outbox, Relay relay, MailSettings settings, Clock clock) {
    this.outbox = outbox;
    this.relay = relay;
    this.writer = new MessageWriter(settings);
    this.clock = clock;
  }

  /**
   * Carries one mail.
   *
   * @return when to try again; empty when the mail is settled
   */
  public Optional<Instant> carry(long mailId) {
    Instant now = clock.instant();
    if (!relay.isSet()) {
      return outbox.findWaiting(mailId).isEmpty()
          ? Optional.empty()
          : Optional.of(now.plus(UNSET_REST));
    }
    Optional<Instant> rest = relay.restsUntil();
    if (rest.isPresent()) {
      // spread over a few seconds, so that they do not all come back at once
      return Optional.of(rest.get().plusMillis(Math.floorMod(mailId * 7919, 10_000)));
    }
    Optional<OutgoingMail> found = outbox.findWaiting(mailId);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    OutgoingMail mail = found.get();
    if (mail.left()) {
      outbox.leave(mailId);
      return Optional.empty();
    }
    SmtpAnswer answer = relay.send(writer.write(relay.session(), mail));
    return switch (answer.kind()) {
      case ACCEPTED -> settled(mail, "accepted", answer);
      case REFUSED -> {
        log.warn("the relay refused report mail {}: {}", mailId, answer.text());
        yield settled(mail, "refused", answer);
      }
      case LATER -> later(mail, answer);
      case NO_RELAY -> {
        Instant until = relay.restsUntil().orElse(now.plus(RESTS.get(0)));
        log.warn("no way to the mail relay until {}: {}", until, answer.text());
        outbox.postpone(mailId, until, answer, false);
        yield Optional.of(until);
      }
    };
  }

  private Optional<Instant> settled(OutgoingMail mail, String status, SmtpAnswer answer) {
    outbox.settle(mail.id(), status, answer);
    return Optional.empty();
  }

  private Optional<Instant> later(OutgoingMail mail, SmtpAnswer answer) {
    Instant now = clock.instant();
    if (Duration.between(mail.createdAt(), now).compareTo(GIVES_UP_AFTER) > 0) {
      return settled(mail, "expired", answer);
    }
    Instant until = now.plus(RESTS.get(Math.min(mail.attempts(), RESTS.size() - 1)));
    outbox.postpone(mail.id(), until, answer, true);
    return Optional.of(until);
  }
}
