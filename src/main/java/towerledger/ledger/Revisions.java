package towerledger.ledger;

import java.math.BigDecimal;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import towerledger.balance.Cause;

/**
 * Appends revisions and moves the pointer to the one that stands. A closed month is written only
 * when a fact of that month itself changed, or an upgrade of the model was ordered.
 */
@Component
class Revisions {

  private static final String[] WATER = {
    "makeup_l",
    "expected_makeup_l",
    "expected_low_l",
    "expected_high_l",
    "unaccounted_l",
    "unaccounted_low_l",
    "unaccounted_high_l",
    "evaporation_l",
    "drift_l",
    "needed_blowdown_l",
    "excess_loss_l",
    "fresh_loss_l",
    "other_use_l",
    "storage_change_l",
    "meter_correction_l",
    "residual_l",
    "blowdown_l",
    "gross_loss_l",
    "loss_l",
    "loss_low_l",
    "loss_high_l",
    "cycles",
    "target_cycles"
  };

  private static final String INSERT =
      "INSERT INTO ledger_revision (customer_id, system_id, month_start, revision, status,"
          + " model_version, input_hash, figures_hash, reason, created_at, evidence, "
          + String.join(", ", WATER)
          + ", flagged, waste, likeliest_cause, cause_probability, second_cause,"
          + " second_probability, cause_set, detected_at, currency, loss_amount, loss_amount_low,"
          + " loss_amount_high, expected_water_amount, evaporation_credit_amount,"
          + " credit_claimed_amount, working) VALUES ("
          + "?, ".repeat(10 + 1 + WATER.length + 15)
          + "?)";

  private static final String INSERT_HEAD =
      """
      INSERT INTO ledger_month (customer_id, site_id, revision, status, closed_at, evidence,
        flagged, waste, likeliest_cause, makeup_l, expected_makeup_l, unaccounted_l, loss_l,
        loss_amount, currency, evaporation_credit_amount, credit_claimed_amount, slot,
        unaccounted_low_l, unaccounted_high_l, loss_low_l, loss_high_l, loss_amount_low,
        loss_amount_high, evaporation_l, drift_l, expected_low_l, expected_high_l,
        evaporation_half_l, system_id, month_start)
      VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)""";

  private static final String MOVE_HEAD =
      """
      UPDATE ledger_month SET customer_id = ?, site_id = ?, revision = ?, status = ?,
        closed_at = ?, evidence = ?, flagged = ?, waste = ?, likeliest_cause = ?, makeup_l = ?,
        expected_makeup_l = ?, unaccounted_l = ?, loss_l = ?, loss_amount = ?, currency = ?,
        evaporation_credit_amount = ?, credit_claimed_amount = ?, slot = ?,
        unaccounted_low_l = ?, unaccounted_high_l = ?, loss_low_l = ?, loss_high_l = ?,
        loss_amount_low = ?, loss_amount_high = ?, evaporation_l = ?, drift_l = ?,
        expected_low_l = ?, expected_high_l = ?, evaporation_half_l = ?
      WHERE system_id = ? AND month_start = ?""";

  private static final int LONGEST_REASON = 500;

  private final JdbcTemplate jdbc;
  private final JdbcClient client;
  private final WorkingCodec codec;
  private final SlotSums sums;
  private final Clock clock;

  Revisions(JdbcTemplate jdbc, JdbcClient client, WorkingCodec codec, SlotSums sums, Clock clock) {
    this.jdbc = jdbc;
    this.client = client;
    this.codec = codec;
    this.sums = sums;
    this.clock = clock;
  }

  /**
   * What stands for a month.
   *
   * @param revision number of the standing revision
   * @param status how far the month has come
   * @param inputHash digest of the facts it was reckoned from
   * @param figuresHash digest of its figures
   * @param modelVersion version that reckoned it
   */
  record Standing(
      int revision,
      LedgerStatus status,
      String inputHash,
      String figuresHash,
      String modelVersion) {}

  /** What stands for systems from a month on, by system and month. */
  Map<Long, Map<YearMonth, Standing>> standing(Collection<Long> systemIds, YearMonth first) {
    Map<Long, Map<YearMonth, Standing>> result = new HashMap<>();
    if (systemIds.isEmpty()) {
      return result;
    }
    client
        .sql(
            """
            SELECT m.system_id, m.month_start, m.revision, m.status, r.input_hash,
              r.figures_hash, r.model_version
            FROM ledger_month m
            JOIN ledger_revision r ON r.system_id = m.system_id
              AND r.month_start = m.month_start AND r.revision = m.revision
            WHERE m.system_id IN (:systems) AND m.month_start >= :first""")
        .param("systems", systemIds)
        .param("first", first.atDay(1))
        .query(
            row -> {
              result
                  .computeIfAbsent(row.getLong(1), id -> new HashMap<>())
                  .put(
                      YearMonth.from(row.getObject(2, LocalDate.class)),
                      new Standing(
                          row.getInt(3),
                          LedgerStatus.ofCode(row.getString(4)),
                          row.getString(5),
                          row.getString(6),
                          row.getString(7)));
            });
    return result;
  }

  /**
   * Writes the months that may be written and differ from what stands.
   *
   * @param upgradeOrdered whether a newer model may restate closed months
   * @return the site of each revision that was appended
   */
  List<Long> append(
      List<NewRevision> fresh,
      Map<Long, Map<YearMonth, Standing>> standing,
      String reason,
      boolean upgradeOrdered) {
    Instant now = clock.instant();
    List<Row> rows = new ArrayList<>();
    for (NewRevision revision : fresh) {
      Standing before = standing.getOrDefault(revision.systemId(), Map.of()).get(revision.month());
      String figuresHash = revision.figuresHash();
      if (before == null) {
        rows.add(row(revision, 1, revision.status(), figuresHash, "first reckoning", now));
      } else if (mayReplace(before, revision, upgradeOrdered)
          && !figuresHash.equals(before.figuresHash())) {
        LedgerStatus status =
            before.status().isClosed() ? LedgerStatus.RESTATED : revision.status();
        rows.add(row(revision, before.revision() + 1, status, figuresHash, reason, now));
      }
    }
    if (!rows.isEmpty()) {
      write(rows);
    }
    return rows.stream().map(row -> row.place().siteId()).toList();
  }

  private static boolean mayReplace(Standing before, NewRevision revision, boolean upgradeOrdered) {
    return !before.status().isClosed()
        || !before.inputHash().equals(revision.inputHash())
        || (upgradeOrdered && !before.modelVersion().equals(revision.modelVersion()));
  }

  /** Whose a system is, and where it stands. */
  record Place(long customerId, long siteId) {}

  /** Puts revisions of another installation, and points at those that stand. */
  void putKept(List<KeptRevision> kept, Map<Long, Place> places) {
    jdbc.batchUpdate(INSERT, kept, 500, (s, r) -> bind(s, r, place(places, r).customerId()));
    var standing = kept.stream().filter(r -> r.standing() != null).toList();
    jdbc.batchUpdate(
        INSERT_HEAD,
        standing,
        500,
        (s, r) -> bindHead(s, r, place(places, r), codec.read(r.working()).evaporationHalf()));
    sums.renew(
        standing.stream()
            .map(r -> new SlotSums.SiteMonth(place(places, r).siteId(), r.month()))
            .toList());
  }

  private static Place place(Map<Long, Place> places, KeptRevision revision) {
    return Objects.requireNonNull(places.get(revision.systemId()));
  }

  /**
   * A revision to be written.
   *
   * @param kept as it is stored
   * @param place whose the system is, and where it stands
   * @param first whether none stood for its month before
   * @param evaporationHalf half of the interval of its evaporation, L; null where none is known
   */
  private record Row(
      KeptRevision kept, Place place, boolean first, @Nullable Double evaporationHalf) {}

  private Row row(
      NewRevision r,
      int number,
      LedgerStatus status,
      String figuresHash,
      String reason,
      Instant now) {
    return new Row(
        new KeptRevision(
            r.systemId(),
            r.month(),
            number,
            status,
            r.modelVersion(),
            r.inputHash(),
            figuresHash,
            reason.length() <= LONGEST_REASON ? reason : reason.substring(0, LONGEST_REASON),
            now,
            r.evidence() == null ? null : r.evidence().name(),
            r.water(),
            r.verdict(),
            r.money(),
            codec.write(r.working()),
            status,
            status.isClosed() ? now : null),
        new Place(r.customerId(), r.siteId()),
        number == 1,
        r.working().evaporationHalf());
  }

  private void write(List<Row> rows) {
    jdbc.batchUpdate(INSERT, rows, 500, (s, row) -> bind(s, row.kept(), row.place().customerId()));
    var firsts = rows.stream().filter(Row::first).toList();
    var moves = rows.stream().filter(row -> !row.first()).toList();
    jdbc.batchUpdate(INSERT_HEAD, firsts, 500, Revisions::bindHead);
    jdbc.batchUpdate(MOVE_HEAD, moves, 500, Revisions::bindHead);
    sums.renew(
        rows.stream()
            .map(row -> new SlotSums.SiteMonth(row.place().siteId(), row.kept().month()))
            .toList());
  }

  private static void bind(PreparedStatement s, KeptRevision r, long customerId)
      throws SQLException {
    int i = 0;
    s.setLong(++i, customerId);
    s.setLong(++i, r.systemId());
    s.setObject(++i, r.month().atDay(1));
    s.setInt(++i, r.number());
    s.setString(++i, r.status().code());
    s.setString(++i, r.modelVersion());
    s.setString(++i, r.inputHash());
    s.setString(++i, r.figuresHash());
    s.setString(++i, r.reason());
    s.setObject(++i, at(r.createdAt()));
    s.setString(++i, r.evidence());
    for (Double figure : r.water().volumes()) {
      setDouble(s, ++i, figure);
    }
    setDouble(s, ++i, r.water().cycles());
    setDouble(s, ++i, r.water().targetCycles());
    LedgerVerdict v = r.verdict();
    s.setBoolean(++i, v.flagged());
    s.setBoolean(++i, v.waste());
    s.setString(++i, v.likeliest().code());
    s.setDouble(++i, v.probability());
    s.setString(++i, v.second() == null ? null : v.second().code());
    setDouble(s, ++i, v.secondProbability());
    s.setString(++i, v.causeSet().stream().map(Cause::code).collect(Collectors.joining(";")));
    s.setObject(++i, v.detectedAt() == null ? null : at(v.detectedAt()));
    LedgerMoney m = r.money();
    s.setString(++i, m.currency().getCurrencyCode());
    for (BigDecimal amount :
        new @Nullable BigDecimal[] {
          m.lossAmount(),
          m.lossLow(),
          m.lossHigh(),
          m.expectedWaterAmount(),
          m.creditAmount(),
          m.creditClaimed()
        }) {
      s.setBigDecimal(++i, amount);
    }
    s.setBytes(++i, r.working());
  }

  private static void bindHead(PreparedStatement s, Row row) throws SQLException {
    bindHead(s, row.kept(), row.place(), row.evaporationHalf());
  }

  private static void bindHead(
      PreparedStatement s, KeptRevision r, Place place, @Nullable Double evaporationHalf)
      throws SQLException {
    LedgerStatus standing = Objects.requireNonNull(r.standing());
    int i = 0;
    s.setLong(++i, place.customerId());
    s.setLong(++i, place.siteId());
    s.setInt(++i, r.number());
    s.setString(++i, standing.code());
    s.setObject(++i, r.closedAt() == null ? null : at(r.closedAt()));
    s.setString(++i, r.evidence());
    s.setBoolean(++i, r.verdict().flagged());
    s.setBoolean(++i, r.verdict().waste());
    s.setString(++i, r.verdict().likeliest().code());
    setDouble(s, ++i, r.water().makeup());
    setDouble(s, ++i, r.water().expectedMakeup());
    setDouble(s, ++i, r.water().unaccounted());
    setDouble(s, ++i, r.water().loss());
    s.setBigDecimal(++i, r.money().lossAmount());
    s.setString(++i, r.money().currency().getCurrencyCode());
    s.setBigDecimal(++i, r.money().creditAmount());
    s.setBigDecimal(++i, r.money().creditClaimed());
    s.setInt(++i, SlotSums.slot(place.siteId()));
    setDouble(s, ++i, r.water().unaccountedLow());
    setDouble(s, ++i, r.water().unaccountedHigh());
    setDouble(s, ++i, r.water().lossLow());
    setDouble(s, ++i, r.water().lossHigh());
    s.setBigDecimal(++i, r.money().lossLow());
    s.setBigDecimal(++i, r.money().lossHigh());
    setDouble(s, ++i, r.water().evaporation());
    setDouble(s, ++i, r.water().drift());
    setDouble(s, ++i, r.water().expectedLow());
    setDouble(s, ++i, r.water().expectedHigh());
    setDouble(s, ++i, evaporationHalf);
    s.setLong(++i, r.systemId());
    s.setObject(++i, r.month().atDay(1));
  }

  private static void setDouble(PreparedStatement s, int index, @Nullable Double value)
      throws SQLException {
    if (value == null) {
      s.setNull(index, Types.DOUBLE);
    } else {
      s.setDouble(index, value);
    }
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
