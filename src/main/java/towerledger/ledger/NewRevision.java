package towerledger.ledger;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.YearMonth;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;
import towerledger.balance.EvidenceGrade;

/**
 * A month freshly reckoned, to be written where it differs from what stands.
 *
 * @param customerId whose it is
 * @param siteId its site
 * @param systemId its system
 * @param month calendar month
 * @param status what it is by the calendar
 * @param modelVersion version of the model
 * @param inputHash digest of the facts and settings of that month
 * @param evidence grade
 * @param water figures
 * @param verdict what they say
 * @param money what it costs
 * @param working the derivation
 */
record NewRevision(
    long customerId,
    long siteId,
    long systemId,
    YearMonth month,
    LedgerStatus status,
    String modelVersion,
    String inputHash,
    @Nullable EvidenceGrade evidence,
    LedgerWater water,
    LedgerVerdict verdict,
    LedgerMoney money,
    MonthWorking working) {

  /** Digest of everything the row says; equal digests are equal rows. */
  String figuresHash() {
    return sha256(FiguresText.of(evidence, water, verdict, money).getBytes(StandardCharsets.UTF_8));
  }

  static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
