package towerledger.ledger;

import org.jspecify.annotations.Nullable;
import towerledger.balance.EvidenceGrade;

/**
 * Which rows of a month to list, and in what order.
 *
 * @param customer code of one customer; null for all
 * @param verdict what the rows say; null for all
 * @param evidence how well the heat load is known; null for all
 * @param search part of a code or name of system, site or customer, case ignored; empty for all
 * @param order order of the rows
 */
public record ReviewFilter(
    @Nullable String customer,
    @Nullable Verdict verdict,
    @Nullable EvidenceGrade evidence,
    String search,
    Order order) {

  /** What a month says of a system. */
  public enum Verdict {
    WASTE("m.waste = TRUE"),
    FLAGGED("m.flagged = TRUE AND m.waste = FALSE"),
    SOUND("m.flagged = FALSE AND m.likeliest_cause <> 'missing-data'"),
    MISSING("m.likeliest_cause = 'missing-data'");

    private final String sql;

    Verdict(String sql) {
      this.sql = sql;
    }

    String sql() {
      return sql;
    }
  }

  /**
   * Order of the rows; what is not known comes last. By cost, systems that lose water come first,
   * then those where something else is wrong.
   */
  public enum Order {
    COST(
        "m.month_start, m.waste DESC, m.flagged DESC, m.loss_amount DESC NULLS LAST,"
            + " m.loss_l DESC NULLS LAST, m.system_id"),
    UNACCOUNTED("m.unaccounted_l DESC NULLS LAST, m.system_id"),
    MAKEUP("m.makeup_l DESC NULLS LAST, m.system_id"),
    NAME("c.name, s.name, y.name, m.system_id");

    private final String sql;

    Order(String sql) {
      this.sql = sql;
    }

    String sql() {
      return sql;
    }
  }

  /** Whether every row passes. */
  public boolean isOpen() {
    return customer == null && verdict == null && evidence == null && search.isBlank();
  }

  /** All rows, dearest waste first. */
  public static ReviewFilter all() {
    return new ReviewFilter(null, null, null, "", Order.COST);
  }
}
