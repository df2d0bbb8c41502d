package towerledger.report.content;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;
import towerledger.account.CustomerDetails;
import towerledger.account.UnitPreference;

/**
 * What report is to be written, and how.
 *
 * @param customerId key of the customer; nothing of another customer's is read
 * @param customer whom it is for
 * @param month what it is about
 * @param units units of its figures
 * @param language language tag of its words
 * @param zone where its times are told
 * @param edition 1 for the first report of a month; more for one that corrects it
 * @param since when the customer's last report was written: what was restated after it is called
 *     out; null when there was none
 * @param preparedAt when it is written
 * @param note the account manager's words above it; null for none
 * @param noteBy who says them; null for none
 */
public record ReportOrder(
    long customerId,
    CustomerDetails customer,
    YearMonth month,
    UnitPreference units,
    String language,
    ZoneId zone,
    int edition,
    @Nullable Instant since,
    Instant preparedAt,
    @Nullable String note,
    @Nullable String noteBy) {

  public ReportOrder {
    if (edition < 1) {
      throw new IllegalArgumentException(
          "edition %d of a report for %s; editions count from 1"
              .formatted(edition, customer.code()));
    }
  }
}
