package towerledger.report;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import towerledger.account.UnitPreference;

/**
 * One report: of a customer and month, in one edition.
 *
 * @param id its key
 * @param customerId key of the customer
 * @param month what it is about
 * @param edition 1 for the first of a month; more for one that corrects it
 * @param status how far it has come
 * @param language language tag of its words
 * @param units units of its figures
 * @param zone where its times are told
 * @param note the account manager's words above it; null for none
 * @param noteBy who says them
 * @param subject subject of the mail
 * @param notable whether it says more than that all is well
 * @param digest SHA-256 of all that is sent, 64 hexadecimal digits
 * @param preparedAt when it was written
 * @param preparedBy who had it written
 * @param decidedAt when it was decided what becomes of it; null for a draft
 * @param decidedBy who decided
 */
public record ReportIssue(
    long id,
    long customerId,
    YearMonth month,
    int edition,
    Status status,
    String language,
    UnitPreference units,
    ZoneId zone,
    @Nullable String note,
    @Nullable String noteBy,
    String subject,
    boolean notable,
    String digest,
    Instant preparedAt,
    String preparedBy,
    @Nullable Instant decidedAt,
    @Nullable String decidedBy) {

  /** How far a report has come. */
  public enum Status {
    /** Written, waiting for somebody to look at it. */
    DRAFT,
    /** Decided to be sent; nothing of it changes any more. */
    APPROVED,
    /** Decided not to be sent. */
    DISCARDED,
    /** Not sent, since there was nothing to say. */
    SKIPPED;

    /** The word in the database and in the texts. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
