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
    WASTE("r.waste = TRUE"),
    FLAGGED("r.flagged = TRUE AND r.waste = FALSE"),
    SOUND("r.flagged = FALSE AND r.likeliest_cause <> 'missing-data'"),
    MISSING("r.likeliest_cause = 'missing-data'");

    private final String sql;

    Verdict(String sql) {
      this.sql = sql;
    }

    String sql() {
      return sql;
    }
  }

  /** Order of the rows; what is not known comes last. */
  public enum Order {
    COST("r.loss_amount DESC NULLS LAST, r.flagged DESC, r.loss_l DESC NULLS LAST, y.code"),
    UNACCOUNTED("r.unaccounted_l DESC NULLS LAST, y.code"),
    MAKEUP("r.makeup_l DESC NULLS LAST, y.code"),
    NAME("c.name, s.name, y.name, y.code");

    private final String sql;

    Order(String sql) {
      this.sql = sql;
    }

    String sql() {
      return sql;
    }
  }

  /** All rows, dearest waste first. */
  public static ReviewFilter all() {
    return new ReviewFilter(null, null, null, "", Order.COST);
  }
}
