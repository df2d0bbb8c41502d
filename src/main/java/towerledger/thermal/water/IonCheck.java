package towerledger.thermal.water;

/**
 * Calcium cycles against chloride cycles: calcium that went in and is not in the basin water has
 * stayed in the tower as scale, unless chloride was added.
 */
public enum IonCheck {
  /** The two agree within their uncertainty. */
  AGREE,
  /** Calcium is missing: it is staying in the tower as scale. */
  SCALING,
  /** Calcium looks missing, but a chlorine biocide raises chloride; compare with conductivity. */
  SCALING_OR_BIOCIDE,
  /** Calcium concentrates more than chloride: a sample or an analysis is wrong. */
  IMPLAUSIBLE;

  /** Calcium below this share of chloride counts as missing (common practice, no source). */
  private static final double MISSING_BELOW = 0.85;

  private static final double IMPLAUSIBLE_ABOVE = 1.2;

  /**
   * Compares the two.
   *
   * @param calciumCycles basin over makeup calcium (as CaCO₃)
   * @param chlorideCycles basin over makeup chloride
   * @param chlorineBiocide whether chlorine or bleach is dosed
   */
  public static IonCheck of(double calciumCycles, double chlorideCycles, boolean chlorineBiocide) {
    double ratio = calciumCycles / chlorideCycles;
    if (ratio > IMPLAUSIBLE_ABOVE) {
      return IMPLAUSIBLE;
    }
    if (ratio >= MISSING_BELOW) {
      return AGREE;
    }
    return chlorineBiocide ? SCALING_OR_BIOCIDE : SCALING;
  }
}
