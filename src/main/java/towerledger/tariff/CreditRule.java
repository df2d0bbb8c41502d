package towerledger.tariff;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A utility's rule for taking evaporated water off the sewer bill.
 *
 * @param method how the credit volume is found
 * @param share for {@link Method#PERCENT_OF_MAKEUP} the share of makeup deemed evaporated, 0–1
 * @param minimumUnits water use of a bill, in billing units, from which on the credit is given;
 *     absent when there is no such threshold
 * @param capShare largest credit as a share of the makeup, 0–1; absent when there is no cap
 * @param deadline when and how to claim, in the utility's words; empty when not known
 */
public record CreditRule(
    Method method,
    @Nullable BigDecimal share,
    @Nullable BigDecimal minimumUnits,
    @Nullable BigDecimal capShare,
    String deadline) {

  /** No credit is given. */
  public static final CreditRule NONE = new CreditRule(Method.NONE, null, null, null, "");

  public CreditRule {
    if (method == Method.PERCENT_OF_MAKEUP && share == null) {
      throw new IllegalArgumentException(
          "evaporation_credit percent-of-makeup needs credit_percent; give the share of makeup the"
              + " utility deems evaporated, 0 to 100");
    }
    requireShare("credit_percent", share);
    requireShare("credit_cap_percent", capShare);
    if (minimumUnits != null && minimumUnits.signum() < 0) {
      throw new IllegalArgumentException(
          "credit_minimum_units of %s is below 0; give the smallest use that earns the credit"
              .formatted(minimumUnits.toPlainString()));
    }
  }

  /** A rule with a method and nothing else. */
  public static CreditRule of(Method method) {
    return new CreditRule(method, null, null, null, "");
  }

  /** A rule that deems a share (0–1) of the makeup evaporated. */
  public static CreditRule percentOfMakeup(String share) {
    return new CreditRule(Method.PERCENT_OF_MAKEUP, new BigDecimal(share), null, null, "");
  }

  static void requireShare(String column, @Nullable BigDecimal share) {
    if (share != null && (share.signum() < 0 || share.compareTo(BigDecimal.ONE) > 0)) {
      throw new IllegalArgumentException(
          "%s of %s is outside 0 to 100; give the percentage the utility prints"
              .formatted(column, share.movePointRight(2).stripTrailingZeros().toPlainString()));
    }
  }

  /** How the credit volume is found. */
  public enum Method {
    /** No credit. */
    NONE("none"),
    /** Makeup submeter minus blowdown submeter. */
    MAKEUP_MINUS_BLOWDOWN("makeup-minus-blowdown"),
    /** A meter of its own counts the water that earns the credit. */
    CREDIT_METER("credit-meter"),
    /** A fixed share of the makeup. */
    PERCENT_OF_MAKEUP("percent-of-makeup"),
    /** An engineer's estimate of evaporation and drift. */
    ENGINEERED("engineered"),
    /** The tower's sewer volume is what its blowdown meter counts. */
    BLOWDOWN_AS_SEWER("blowdown-as-sewer");

    private final String code;

    Method(String code) {
      this.code = code;
    }

    /** Code in import files. */
    public String code() {
      return code;
    }

    /**
     * The method with a code, case ignored.
     *
     * @throws IllegalArgumentException naming the codes that exist
     */
    public static Method ofCode(String code) {
      for (Method method : values()) {
        if (method.code.equalsIgnoreCase(code.strip())) {
          return method;
        }
      }
      throw new IllegalArgumentException(
          "evaporation_credit '%s' is not known; use none, makeup-minus-blowdown, credit-meter,"
                  .formatted(code)
              + " percent-of-makeup, engineered or blowdown-as-sewer");
    }
  }
}
