package towerledger.tariff;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Which volume a sewer schedule charges for.
 *
 * @param basis the volume charged
 * @param share for {@link Basis#PERCENT_OF_WATER} the share of water charged, 0–1
 * @param winterMonths for {@link Basis#WINTER_AVERAGE} the months that make the average
 */
public record SewerRule(Basis basis, @Nullable BigDecimal share, @Nullable Season winterMonths) {

  /** All metered water. */
  public static final SewerRule METERED_WATER = new SewerRule(Basis.METERED_WATER, null, null);

  /** What the meter on the sewer connection counts. */
  public static final SewerRule RETURN_METER = new SewerRule(Basis.RETURN_METER, null, null);

  public SewerRule {
    CreditRule.requireShare("sewer_percent", share);
    if (basis == Basis.PERCENT_OF_WATER && share == null) {
      throw new IllegalArgumentException(
          "sewer_basis percent-of-water needs sewer_percent; give the share of water the utility"
              + " charges sewer on, 0 to 100");
    }
    if (basis == Basis.WINTER_AVERAGE && winterMonths == null) {
      throw new IllegalArgumentException(
          "sewer_basis winter-average needs winter_months; give the months that make the average,"
              + " for instance 12-2");
    }
  }

  /** A share (0–1) of the metered water. */
  public static SewerRule percentOfWater(String share) {
    return new SewerRule(Basis.PERCENT_OF_WATER, new BigDecimal(share), null);
  }

  /** Outside the winter months at most their average. */
  public static SewerRule winterAverage(Season winterMonths) {
    return new SewerRule(Basis.WINTER_AVERAGE, null, winterMonths);
  }

  boolean isWinter(int month) {
    return winterMonths != null && winterMonths.contains(month);
  }

  /** The volume charged. */
  public enum Basis {
    /** All water that came in through the service meter. */
    METERED_WATER("metered-water"),
    /** A fixed share of that water. */
    PERCENT_OF_WATER("percent-of-water"),
    /** What a meter on the sewer connection counted. */
    RETURN_METER("return-meter"),
    /** Metered water, outside the winter months at most the average bill of the winter months. */
    WINTER_AVERAGE("winter-average");

    private final String code;

    Basis(String code) {
      this.code = code;
    }

    /** Code in import files. */
    public String code() {
      return code;
    }

    /**
     * The basis with a code, case ignored.
     *
     * @throws IllegalArgumentException naming the codes that exist
     */
    public static Basis ofCode(String code) {
      for (Basis basis : values()) {
        if (basis.code.equalsIgnoreCase(code.strip())) {
          return basis;
        }
      }
      throw new IllegalArgumentException(
          "sewer_basis '%s' is not known; use metered-water, percent-of-water, return-meter or"
                  .formatted(code)
              + " winter-average");
    }
  }
}
