package towerledger.balance;

/**
 * How the water of a basin changes with its concentration: makeup E·C/(C − 1) and bleed E/(C − 1),
 * carried from the concentration aimed at to the one kept. Exact where the bleed holds the
 * concentration all the time, close to it where it does for a part.
 */
final class Cycles {

  /** Largest part of the makeup that may leave as bleed, over which nothing is extrapolated. */
  private static final double MOST_BLED = 0.85;

  private Cycles() {}

  /**
   * Factor on the makeup.
   *
   * @param elasticity derivative of the log of the makeup by the log of the concentration at the
   *     aim, −1/(C − 1); 0 or less
   * @param kept concentration kept over the one aimed at: the exponential of the habit
   */
  static double makeupAt(double elasticity, double kept) {
    double bled = bled(elasticity);
    return (1 - bled) / (1 - Math.min(MOST_BLED, bled / kept));
  }

  /** Derivative of the log of {@link #makeupAt} by the habit. */
  static double makeupSlopeAt(double elasticity, double kept) {
    double here = Math.min(MOST_BLED, bled(elasticity) / kept);
    return -here / (1 - here);
  }

  /** The part of the makeup that is bled at the aim, 1/C. */
  private static double bled(double elasticity) {
    double up = Math.max(0, -elasticity);
    return Math.min(MOST_BLED, up / (1 + up));
  }

  /**
   * Factor on the bleed.
   *
   * @param elasticity derivative of the log of the bleed by the log of the concentration at the
   *     aim, −C/(C − 1); −1 or less where the bleed holds it
   */
  static double bleedAt(double elasticity, double kept) {
    double inverse = inverseCycles(elasticity);
    return inverse <= 0
        ? Math.pow(kept, elasticity)
        : (1 - inverse) / Math.max(1 - MOST_BLED, kept - inverse);
  }

  /** Derivative of the log of {@link #bleedAt} by the habit. */
  static double bleedSlopeAt(double elasticity, double kept) {
    double inverse = inverseCycles(elasticity);
    return inverse <= 0 ? elasticity : -kept / Math.max(1 - MOST_BLED, kept - inverse);
  }

  private static double inverseCycles(double elasticity) {
    return elasticity < -1 ? Math.min(MOST_BLED, 1 + 1 / elasticity) : 0;
  }
}
