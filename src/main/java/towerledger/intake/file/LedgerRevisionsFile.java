package towerledger.intake.file;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.balance.Cause;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Moment;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.ledger.KeptRevision;
import towerledger.ledger.LedgerMoney;
import towerledger.ledger.LedgerStatus;
import towerledger.ledger.LedgerVerdict;
import towerledger.ledger.LedgerWater;
import towerledger.ledger.RevisionArchive;

/**
 * {@code ledger_revisions.csv}: the revisions of an export, so that a ledger that moves keeps its
 * months as they were closed. Months that this installation reckoned itself stay; an export of an
 * older version, without the digests, is a record for audit and puts nothing.
 */
@Component
class LedgerRevisionsFile implements FileFormat<LedgerRevisionsFile.RevisionRow> {

  private static final double MOST = 1e15;
  private static final List<String> STATUSES =
      Arrays.stream(LedgerStatus.values()).map(LedgerStatus::code).toList();
  private static final List<String> GRADES = List.of("a", "b", "c", "d");

  private static final Columns COLUMNS = new Columns("ledger_revisions");
  private static final Column SYSTEM = COLUMNS.required("system");
  private static final Column MONTH = COLUMNS.required("month");
  private static final Column REVISION = COLUMNS.requiredNumber("revision", 1, 1e9);
  private static final Column STATUS = COLUMNS.required("status");
  private static final Column MODEL = COLUMNS.required("model_version");
  private static final Column REASON = COLUMNS.required("reason");
  private static final Column CREATED = COLUMNS.required("created_at");
  private static final Column EVIDENCE = COLUMNS.optional("evidence");
  private static final List<Column> VOLUMES =
      LedgerWater.VOLUME_NAMES.stream()
          .map(name -> COLUMNS.number(name + "_gal", Twin.GALLONS, -MOST, MOST))
          .toList();
  private static final Column CYCLES = COLUMNS.number("cycles", 0, MOST);
  private static final Column TARGET = COLUMNS.number("target_cycles", 0, MOST);
  private static final Column FLAGGED = COLUMNS.required("flagged");
  private static final Column WASTE = COLUMNS.required("waste");
  private static final Column LIKELIEST = COLUMNS.required("likeliest_cause");
  private static final Column PROBABILITY = COLUMNS.number("cause_probability", 0, 1);
  private static final Column SECOND = COLUMNS.optional("second_cause");
  private static final Column SECOND_PROBABILITY = COLUMNS.number("second_probability", 0, 1);
  private static final Column CAUSES = COLUMNS.optional("cause_set");
  private static final Column DETECTED = COLUMNS.optional("detected_at");
  private static final Column CURRENCY = COLUMNS.required("currency");
  private static final List<Column> AMOUNTS =
      Stream.of(
              "loss_amount",
              "loss_amount_low",
              "loss_amount_high",
              "expected_water_amount",
              "evaporation_credit_amount",
              "credit_claimed_amount")
          .map(name -> COLUMNS.number(name, -MOST, MOST))
          .toList();
  private static final Column INPUT_HASH = COLUMNS.optional("input_hash");
  private static final Column FIGURES_HASH = COLUMNS.optional("figures_hash");
  private static final Column STANDING = COLUMNS.optional("standing");
  private static final Column CLOSED = COLUMNS.optional("closed_at");
  private static final Column WORKING = COLUMNS.optional("working");

  /** A revision, ready to be put; null where its row is only a record for audit. */
  record RevisionRow(@Nullable KeptRevision revision) {}

  private final RevisionArchive archive;

  LedgerRevisionsFile(RevisionArchive archive) {
    this.archive = archive;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  /** Before the readings: whatever reckons months in between finds them closed. */
  @Override
  public int order() {
    return 65;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public RevisionRow read(Row row, Taking taking) {
    long system = taking.directory().system(row.code(SYSTEM)).systemId();
    String inputHash = row.findRaw(INPUT_HASH);
    String figuresHash = row.findRaw(FIGURES_HASH);
    String working = row.findRaw(WORKING);
    if (inputHash == null || figuresHash == null || working == null) {
      return new RevisionRow(null);
    }
    String standing = row.findChoice(STANDING, STATUSES);
    String evidence = row.findChoice(EVIDENCE, GRADES);
    return new RevisionRow(
        new KeptRevision(
            system,
            YearMonth.from(row.day(MONTH)),
            (int) row.number(REVISION),
            LedgerStatus.ofCode(row.choice(STATUS, STATUSES)),
            row.text(MODEL, 20),
            digest(inputHash),
            digest(figuresHash),
            row.text(REASON, 500),
            row.moment(CREATED, null).instant(),
            evidence == null ? null : evidence.toUpperCase(Locale.ROOT),
            water(row),
            verdict(row),
            money(row),
            decoded(working),
            standing == null ? null : LedgerStatus.ofCode(standing),
            instant(row.findMoment(CLOSED, null))));
  }

  private static LedgerWater water(Row row) {
    List<@Nullable Double> v = new ArrayList<>();
    VOLUMES.forEach(column -> v.add(row.findNumber(column)));
    int i = 0;
    return new LedgerWater(
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i++),
        v.get(i),
        row.findNumber(CYCLES),
        row.findNumber(TARGET));
  }

  private static LedgerVerdict verdict(Row row) {
    String second = row.findText(SECOND, 30);
    String causes = row.findText(CAUSES, 300);
    return new LedgerVerdict(
        Boolean.TRUE.equals(row.yesNo(FLAGGED)),
        Boolean.TRUE.equals(row.yesNo(WASTE)),
        Cause.ofCode(row.text(LIKELIEST, 30)),
        row.number(PROBABILITY),
        second == null ? null : Cause.ofCode(second),
        row.findNumber(SECOND_PROBABILITY),
        causes == null ? List.of() : Arrays.stream(causes.split(";")).map(Cause::ofCode).toList(),
        instant(row.findMoment(DETECTED, null)));
  }

  private static LedgerMoney money(Row row) {
    List<@Nullable BigDecimal> amounts = new ArrayList<>();
    AMOUNTS.forEach(column -> amounts.add(row.findDecimal(column, 4)));
    return new LedgerMoney(
        Currency.getInstance(row.text(CURRENCY, 3)),
        amounts.get(0),
        amounts.get(1),
        amounts.get(2),
        amounts.get(3),
        amounts.get(4),
        amounts.get(5));
  }

  private static String digest(String text) {
    if (!text.matches("[0-9a-f]{64}")) {
      throw RowProblem.of(
          "digest %s is not 64 hexadecimal digits; export the ledger again",
          RowProblem.quoted(text));
    }
    return text;
  }

  private static byte[] decoded(String text) {
    try {
      return Base64.getDecoder().decode(text);
    } catch (IllegalArgumentException e) {
      throw RowProblem.of(
          "working is not whole (%s); export the ledger again", String.valueOf(e.getMessage()));
    }
  }

  private static @Nullable Instant instant(@Nullable Moment moment) {
    return moment == null ? null : moment.instant();
  }

  @Override
  public List<RowFate> take(List<RevisionRow> rows, Taking taking) {
    List<KeptRevision> kept = new ArrayList<>();
    rows.stream()
        .map(RevisionRow::revision)
        .filter(revision -> revision != null)
        .forEach(kept::add);
    List<RevisionArchive.Fate> fates = archive.put(kept);
    List<RowFate> result = new ArrayList<>();
    int at = 0;
    for (RevisionRow row : rows) {
      boolean put = row.revision() != null && fates.get(at++) == RevisionArchive.Fate.PUT;
      result.add(RowFate.of(put ? Fate.ADDED : Fate.UNCHANGED));
    }
    return result;
  }
}
