package towerledger.ledger;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.balance.Cause;
import towerledger.balance.CauseOpinion;
import towerledger.balance.EvidenceGrade;
import towerledger.balance.VolumeEstimate;

/**
 * One invented customer with two sites and five towers whose rows a test writes month by month: for
 * what is made of the ledger's rows, not for judging the model.
 */
public final class InventedMonths {

  /** Litres a US gallon holds. */
  private static final double GALLON = 3.785411784;

  private final JdbcTemplate jdbc;
  private final JdbcClient client;
  private final WorkingCodec codec;
  private final String prefix;
  private final List<long[]> keys = new ArrayList<>();

  /** What a month is to be like. */
  public enum Kind {
    /** Nothing is wrong anywhere. */
    GOOD,
    /** Two towers waste water, one meter is wrong, and one tower cannot be told. */
    BAD,
    /** Nothing is metered and the heat is known from the nameplate alone. */
    NO_EVIDENCE
  }

  /**
   * A customer of its own.
   *
   * @param prefix how the codes of customer, sites and systems begin
   * @param name name of the customer
   * @param emails who gets the report, parted by {@code ;}
   */
  public InventedMonths(
      ApplicationContext context, String prefix, String name, String contact, String emails) {
    this.jdbc = context.getBean(JdbcTemplate.class);
    this.client = context.getBean(JdbcClient.class);
    this.codec = context.getBean(WorkingCodec.class);
    this.prefix = prefix;
    jdbc.update(
        "INSERT INTO account_customer (code, name, contact_name, report_emails, currency,"
            + " created_at) VALUES (?, ?, ?, ?, 'USD', ?)",
        prefix,
        name,
        contact,
        emails,
        Timestamp.from(Instant.EPOCH));
    site("MAIN", "Main plant", 3);
    site("ANNEX", "Annex", 2);
  }

  private void site(String code, String name, int towers) {
    String site = prefix + "-" + code;
    jdbc.update(
        """
        INSERT INTO site_site (code, customer_id, name, time_zone, created_at)
        SELECT ?, id, ?, 'America/Chicago', CURRENT_TIMESTAMP FROM account_customer WHERE code = ?""",
        site,
        name,
        prefix);
    for (int i = 1; i <= towers; i++) {
      String system = site + "-" + i;
      jdbc.update(
          """
          INSERT INTO site_system (code, site_id, customer_id, name, created_at)
          SELECT ?, id, customer_id, ?, CURRENT_TIMESTAMP FROM site_site WHERE code = ?""",
          system,
          "Tower " + (keys.size() + 1),
          site);
      keys.add(
          jdbc.queryForObject(
              "SELECT id, site_id, customer_id FROM site_system WHERE code = ?",
              (row, n) -> new long[] {row.getLong(1), row.getLong(2), row.getLong(3)},
              system));
    }
  }

  /** Key of the customer. */
  public long customerId() {
    return keys.get(0)[2];
  }

  /** Writes a month of every tower, as of an instant; written again it is a new revision. */
  public InventedMonths write(YearMonth month, Kind kind, Instant at, String reason) {
    List<NewRevision> rows = new ArrayList<>();
    for (int tower = 0; tower < keys.size(); tower++) {
      rows.add(row(keys.get(tower), tower, month, kind));
    }
    var revisions =
        new Revisions(jdbc, client, codec, new SlotSums(jdbc), Clock.fixed(at, ZoneOffset.UTC));
    var standing = revisions.standing(keys.stream().map(key -> key[0]).toList(), month);
    revisions.append(rows, standing.isEmpty() ? Map.of() : standing, reason, true);
    return this;
  }

  /** A year of good months before one. */
  public InventedMonths history(YearMonth before) {
    for (int back = 12; back >= 1; back--) {
      YearMonth month = before.minusMonths(back);
      write(month, Kind.GOOD, instant(month.plusMonths(1), 11), "first reckoning");
    }
    return this;
  }

  /** A day of a month at noon, UTC. */
  public static Instant instant(YearMonth month, int day) {
    return month.atDay(day).atTime(12, 0).toInstant(ZoneOffset.UTC);
  }

  private NewRevision row(long[] key, int tower, YearMonth month, Kind kind) {
    Cause cause =
        switch (kind) {
          case GOOD -> Cause.NONE;
          case NO_EVIDENCE -> Cause.MISSING_DATA;
          case BAD ->
              List.of(
                      Cause.FILL_VALVE_LEAKING_BY,
                      Cause.BLOWDOWN_STUCK_OPEN,
                      Cause.NONE,
                      Cause.MAKEUP_METER_ERROR,
                      Cause.MISSING_DATA)
                  .get(tower);
        };
    EvidenceGrade grade =
        kind == Kind.NO_EVIDENCE
            ? EvidenceGrade.D
            : List.of(
                    EvidenceGrade.A,
                    EvidenceGrade.B,
                    EvidenceGrade.A,
                    EvidenceGrade.C,
                    EvidenceGrade.D)
                .get(tower);
    double season = 1 + 0.5 * Math.cos((month.getMonthValue() - 7) * Math.PI / 6);
    double evaporation = (60_000 + 25_000 * tower) * GALLON * season;
    double drift = evaporation * 0.004;
    double needed = evaporation / 3 - drift;
    double expected = evaporation * 4 / 3;
    double half = expected * List.of(0.06, 0.1, 0.06, 0.18, 0.3).get(tower);
    boolean metered = cause != Cause.MISSING_DATA;
    double loss =
        cause == Cause.FILL_VALVE_LEAKING_BY
            ? 0.31 * expected
            : cause == Cause.BLOWDOWN_STUCK_OPEN ? 0.18 * expected : 0;
    boolean fresh = cause == Cause.FILL_VALVE_LEAKING_BY;
    double correction = cause == Cause.MAKEUP_METER_ERROR ? -0.11 * expected : 0;
    double noise = 0.012 * expected * (tower % 2 == 0 ? 1 : -1);
    double makeup = expected + loss + correction + noise;
    LedgerWater water =
        metered
            ? new LedgerWater(
                makeup,
                expected,
                expected - half,
                expected + half,
                makeup - expected,
                makeup - expected - half,
                makeup - expected + half,
                evaporation,
                drift,
                needed,
                fresh ? 0.0 : loss,
                fresh ? loss : 0.0,
                0.0,
                0.0,
                correction,
                noise,
                needed + (fresh ? 0 : loss),
                loss * 1.2,
                loss,
                Math.max(0, loss - half * 0.6),
                loss + half * 0.6,
                loss > 0 && !fresh ? 2.9 : 4.0,
                4.0)
            : new LedgerWater(
                null,
                expected,
                expected - half,
                expected + half,
                null,
                null,
                null,
                evaporation,
                drift,
                needed,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                4.0);
    boolean flagged = cause != Cause.NONE && metered;
    return new NewRevision(
        key[2],
        key[1],
        key[0],
        month,
        LedgerStatus.CLOSED,
        "0.0-invented",
        // facts differ by kind, so that another kind of the same month may restate it
        "%064d".formatted(kind.ordinal()),
        grade,
        water,
        new LedgerVerdict(
            flagged,
            cause.wastesWater(),
            cause,
            flagged ? 0.78 : 0.95,
            flagged ? Cause.BASIN_LEAK : null,
            flagged ? 0.06 : null,
            cause == Cause.BLOWDOWN_STUCK_OPEN
                ? List.of(cause, Cause.OVERFLOW_ON_SHUTDOWN, Cause.DRIFT_EXCESS)
                : List.of(cause),
            flagged ? instant(month.plusMonths(1), 1) : null),
        new LedgerMoney(
            Currency.getInstance("USD"),
            metered ? money(loss) : null,
            metered ? money(Math.max(0, loss - half * 0.6)) : null,
            metered ? money(loss + half * 0.6) : null,
            money(expected),
            money((evaporation + drift) * 0.45),
            tower < 3 ? money((evaporation + drift) * 0.45) : money(0)),
        working(cause, month, loss));
  }

  private static MonthWorking working(Cause cause, YearMonth month, double loss) {
    List<String> evidence =
        switch (cause) {
          case FILL_VALVE_LEAKING_BY ->
              List.of(
                  "makeup 31 % more than the sound system would draw",
                  "pressure at the fill valve 28 % above the highest at which it closes; many sound"
                      + " sites exceed it too");
          case BLOWDOWN_STUCK_OPEN ->
              List.of("cycles 2.9 against a target of 4.0: concentrated water is lost");
          case MAKEUP_METER_ERROR -> List.of("makeup 12 % less than the sound system would draw");
          default -> List.of();
        };
    return new MonthWorking(
        List.of(),
        List.of(),
        List.of(new CauseOpinion(cause, 0.78, evidence, List.of())),
        List.of(),
        cause == Cause.MISSING_DATA
            ? List.of("makeup meter readings that enclose the whole month")
            : List.of(),
        loss > 0 ? month.minusMonths(2) : null,
        null,
        loss > 0 ? VolumeEstimate.ofLitres(loss * 2.6, loss * 1.9, loss * 3.3) : null,
        List.of(),
        null);
  }

  private static BigDecimal money(double litres) {
    return BigDecimal.valueOf(litres * 0.0034).setScale(2, RoundingMode.HALF_UP);
  }
}
