package towerledger.report;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A report on its way to one recipient.
 *
 * @param id its key
 * @param issueId the report
 * @param customerId key of the customer
 * @param recipient whom it goes to
 * @param messageId name of the message, the same in every attempt
 * @param status what came of it
 * @param attempts how often it was tried
 * @param answer the relay's last words; null before the first attempt
 * @param nextAt when it is tried again; null when it is settled
 * @param settledAt when it was settled; null while it waits
 * @param log every attempt, oldest first
 */
public record ReportMail(
    long id,
    long issueId,
    long customerId,
    String recipient,
    String messageId,
    Status status,
    int attempts,
    @Nullable String answer,
    @Nullable Instant nextAt,
    @Nullable Instant settledAt,
    List<Attempt> log) {

  public ReportMail {
    log = List.copyOf(log);
  }

  /** What came of a mail. */
  public enum Status {
    /** Not sent yet. */
    WAITING,
    /** The relay has taken it over. */
    ACCEPTED,
    /** The relay will never take it. */
    REFUSED,
    /** The relay put it off for five days. */
    EXPIRED,
    /** The recipient asked to be left alone. */
    LEFT,
    /** The relay had taken it, and it came back. */
    BOUNCED;

    /** The word in the database and in the texts. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** Whether somebody has to see to it. */
    public boolean isTrouble() {
      return this == REFUSED || this == EXPIRED || this == BOUNCED;
    }
  }

  /** One attempt with the relay's words. */
  public record Attempt(Instant at, String outcome, String answer) {}
}
