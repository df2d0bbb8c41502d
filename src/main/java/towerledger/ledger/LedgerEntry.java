package towerledger.ledger;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.YearMonth;
import org.jspecify.annotations.Nullable;
import towerledger.balance.EvidenceGrade;

/**
 * One month of one system as it stands in the ledger: one revision.
 *
 * @param of whose month it is
 * @param month calendar month in the site's zone
 * @param revision 1 for the first, counting up
 * @param status how far the month has come
 * @param modelVersion version of the model that reckoned it
 * @param reason why this revision was written
 * @param createdAt when it was written
 * @param evidence how well the heat load is known; null when the month cannot be reckoned at all
 * @param water the figures
 * @param verdict what they say
 * @param money what it costs
 */
public record LedgerEntry(
    Of of,
    YearMonth month,
    int revision,
    LedgerStatus status,
    String modelVersion,
    String reason,
    Instant createdAt,
    @Nullable EvidenceGrade evidence,
    LedgerWater water,
    LedgerVerdict verdict,
    LedgerMoney money) {

  /**
   * What of the month's sewer credit is still to be claimed, as {@link
   * LedgerMoney#creditUnclaimed()}; null too where no meter shows the makeup: what is at stake
   * there cannot be claimed yet.
   */
  public @Nullable BigDecimal creditUnclaimed() {
    return water.makeup() == null ? null : money.creditUnclaimed();
  }

  /**
   * What the waste of the month cost: nothing in a month without waste, whatever the doubt of its
   * figures would come to; null where it is not known.
   */
  public @Nullable BigDecimal wasteAmount() {
    return money.lossAmount() == null || verdict.waste()
        ? money.lossAmount()
        : BigDecimal.ZERO.setScale(2);
  }

  /**
   * Whose month it is.
   *
   * @param systemId identity of the system
   * @param system its code
   * @param systemName its name
   * @param site code of the site
   * @param siteName its name
   * @param customer code of the customer
   * @param customerName its name
   */
  public record Of(
      long systemId,
      String system,
      String systemName,
      String site,
      String siteName,
      String customer,
      String customerName) {}
}
