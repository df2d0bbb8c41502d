package towerledger.ledger;

import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Collection;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/**
 * Keeps the sums that would take long to add up for a page: over all systems, a row a slot of
 * sites, month and currency; and the credits of a site in a year. They are summed anew from their
 * rows in the transaction that changes them, so that they are exact whatever happens. Whoever
 * reckons a site holds its slot ({@link StaleSystems#takesTurn}), so no two write the same.
 */
@Component
class SlotSums {

  /** What is summed, over {@code ledger_month m}. */
  static final String SUMS =
      """
      COUNT(*) AS systems, COUNT(m.makeup_l) AS metered,
        SUM(CASE WHEN m.waste THEN 1 ELSE 0 END) AS wasting,
        COALESCE(SUM(m.makeup_l), 0) AS makeup_l,
        COALESCE(SUM(m.makeup_l - m.unaccounted_l), 0) AS sound_l,
        COALESCE(SUM(POWER((m.unaccounted_high_l - m.unaccounted_low_l) / 2, 2)), 0)
          AS sound_squares_l2,
        COALESCE(SUM(CASE WHEN m.waste THEN m.loss_l END), 0) AS loss_l,
        COALESCE(SUM(CASE WHEN m.waste THEN POWER((m.loss_high_l - m.loss_low_l) / 2, 2) END), 0)
          AS loss_squares_l2,
        COALESCE(SUM(CASE WHEN m.waste THEN m.loss_amount END), 0) AS loss_amount,
        COALESCE(SUM(CASE WHEN m.waste
          THEN POWER((m.loss_amount_high - m.loss_amount_low) / 2, 2) END), 0)
          AS loss_amount_squares,
        SUM(%s) AS credit_unclaimed
      """
          .formatted(LedgerMoney.UNCLAIMED_SQL);

  /** The same of the sums kept, over {@code ledger_slot_month m}. */
  static final String KEPT =
      """
      SUM(m.systems) AS systems, SUM(m.metered) AS metered, SUM(m.wasting) AS wasting,
        SUM(m.makeup_l) AS makeup_l, SUM(m.sound_l) AS sound_l,
        SUM(m.sound_squares_l2) AS sound_squares_l2, SUM(m.loss_l) AS loss_l,
        SUM(m.loss_squares_l2) AS loss_squares_l2, SUM(m.loss_amount) AS loss_amount,
        SUM(m.loss_amount_squares) AS loss_amount_squares,
        SUM(m.credit_unclaimed) AS credit_unclaimed
      """;

  private final JdbcTemplate jdbc;

  SlotSums(JdbcTemplate jdbc) {
    this.jdbc = jdbc;
  }

  /** A site in a month. */
  record SiteMonth(long siteId, YearMonth month) {}

  /** Months of a slot, from the first that changed to the last. */
  private record Part(int slot, YearMonth first, YearMonth last) {
    Part together(Part other) {
      return new Part(
          slot,
          first.isBefore(other.first) ? first : other.first,
          last.isAfter(other.last) ? last : other.last);
    }

    /** Each month alone: the table is found by month first. */
    Stream<Part> months() {
      return Stream.iterate(first, month -> !month.isAfter(last), month -> month.plusMonths(1))
          .map(month -> new Part(slot, month, month));
    }
  }

  private record SiteYear(long siteId, int year) {}

  /** The slot of a site. */
  static int slot(long siteId) {
    return Math.floorMod(siteId, StaleSystems.SLOTS);
  }

  /** Sums what rows of some months at some sites are part of anew. */
  void renew(Collection<SiteMonth> changed) {
    var parts = new TreeMap<Integer, Part>();
    for (SiteMonth c : changed) {
      parts.merge(
          slot(c.siteId()), new Part(slot(c.siteId()), c.month(), c.month()), Part::together);
    }
    take(parts.keySet());
    renewSlots(parts.values());
    renewYears(
        changed.stream()
            .map(c -> new SiteYear(c.siteId(), c.month().getYear()))
            .distinct()
            .toList());
  }

  /**
   * Takes slots in one order for all, so that none waits for another in a ring, and counts the
   * change: whoever remembers sums of before knows by the count ({@link RememberedReview}).
   */
  private void take(Collection<Integer> ascending) {
    ascending.forEach(
        slot -> jdbc.update("UPDATE ledger_turn SET changes = changes + 1 WHERE slot = ?", slot));
  }

  private void renewYears(List<SiteYear> years) {
    jdbc.batchUpdate(
        "DELETE FROM ledger_site_year WHERE site_id = ? AND of_year = ?",
        years,
        500,
        (s, year) -> {
          s.setLong(1, year.siteId());
          s.setInt(2, year.year());
        });
    jdbc.batchUpdate(
        """
        INSERT INTO ledger_site_year (customer_id, site_id, of_year, evaporated_l,
          evaporated_half_l, due, credited, unclaimed)
        SELECT MAX(m.customer_id), m.site_id, CAST(? AS INT),
          COALESCE(SUM(m.evaporation_l), 0) + COALESCE(SUM(m.drift_l), 0),
          CASE WHEN COUNT(m.evaporation_half_l) = COUNT(m.evaporation_l)
            THEN SUM(m.evaporation_half_l) END,
          SUM(m.evaporation_credit_amount), SUM(m.credit_claimed_amount),
          SUM(%s)
        FROM ledger_month m WHERE m.site_id = ? AND m.month_start >= ? AND m.month_start <= ?
        GROUP BY m.site_id"""
            .formatted(LedgerMoney.UNCLAIMED_SQL),
        years,
        500,
        (s, year) -> {
          s.setInt(1, year.year());
          s.setLong(2, year.siteId());
          s.setObject(3, LocalDate.of(year.year(), 1, 1));
          s.setObject(4, LocalDate.of(year.year(), 12, 31));
        });
  }

  private void renewSlots(Collection<Part> changed) {
    jdbc.batchUpdate(
        "DELETE FROM ledger_slot_month WHERE slot = ? AND month_start = ?",
        changed.stream().flatMap(Part::months).toList(),
        500,
        (s, month) -> {
          s.setInt(1, month.slot());
          s.setObject(2, month.first().atDay(1));
        });
    jdbc.batchUpdate(
        """
        INSERT INTO ledger_slot_month (slot, month_start, currency, systems, metered, wasting,
          makeup_l, sound_l, sound_squares_l2, loss_l, loss_squares_l2, loss_amount,
          loss_amount_squares, credit_unclaimed)
        SELECT m.slot, m.month_start, m.currency, %s
        FROM ledger_month m WHERE m.slot = ? AND m.month_start >= ? AND m.month_start <= ?
        GROUP BY m.slot, m.month_start, m.currency"""
            .formatted(SUMS),
        changed,
        500,
        SlotSums::bind);
  }

  private static void bind(PreparedStatement s, Part part) throws SQLException {
    s.setInt(1, part.slot());
    s.setObject(2, part.first().atDay(1));
    s.setObject(3, part.last().atDay(1));
  }
}
