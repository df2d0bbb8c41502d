package towerledger.ledger;

import java.time.Instant;
import java.time.YearMonth;
import org.jspecify.annotations.Nullable;

/**
 * A revision that another installation kept, to be put into this one as it stood there.
 *
 * @param systemId the system here
 * @param month calendar month
 * @param number number of the revision, from 1
 * @param status what it was when it was written
 * @param modelVersion version of the model that reckoned it
 * @param inputHash digest of the facts that it was reckoned from
 * @param figuresHash digest of its figures
 * @param reason why it was written
 * @param createdAt when it was written
 * @param evidence grade A to D, if any
 * @param water figures
 * @param verdict what they say
 * @param money what it costs
 * @param working the derivation, as it is stored
 * @param standing how far the month has come, where this revision stands for it; else null
 * @param closedAt when the month was closed, where it was and this revision stands for it
 */
public record KeptRevision(
    long systemId,
    YearMonth month,
    int number,
    LedgerStatus status,
    String modelVersion,
    String inputHash,
    String figuresHash,
    String reason,
    Instant createdAt,
    @Nullable String evidence,
    LedgerWater water,
    LedgerVerdict verdict,
    LedgerMoney money,
    byte[] working,
    @Nullable LedgerStatus standing,
    @Nullable Instant closedAt) {

  /** The same as a revision that another one has followed. */
  KeptRevision followed() {
    return new KeptRevision(
        systemId,
        month,
        number,
        status,
        modelVersion,
        inputHash,
        figuresHash,
        reason,
        createdAt,
        evidence,
        water,
        verdict,
        money,
        working,
        null,
        null);
  }
}
