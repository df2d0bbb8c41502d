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
   * Log of the factor on the makeup.
   *
   * @param elasticity derivative of the log of the makeup by the log of the concentration at the
   *     aim, −1/(C − 1); 0 or less
   * @param habit log of the concentration kept over the one aimed at
   */
  static double makeupFactor(double elasticity, double habit) {
    double bled = bled(elasticity);
    return Math.log((1 - bled) / (1 - Math.min(MOST_BLED, bled * Math.exp(-habit))));
  }

  /** Derivative of {@link #makeupFactor} by the habit. */
  static double makeupSlope(double elasticity, double habit) {
    double here = Math.min(MOST_BLED, bled(elasticity) * Math.exp(-habit));
    return -here / (1 - here);
  }

  /** The part of the makeup that is bled at the aim, 1/C. */
  private static double bled(double elasticity) {
    double up = Math.max(0, -elasticity);
    return Math.min(MOST_BLED, up / (1 + up));
  }

  /**
   * Log of the factor on the bleed.
   *
   * @param elasticity derivative of the log of the bleed by the log of the concentration at the
   *     aim, −C/(C − 1); −1 or less where the bleed holds it
   */
  static double bleedFactor(double elasticity, double habit) {
    double inverse = inverseCycles(elasticity);
    return inverse <= 0
        ? elasticity * habit
        : Math.log((1 - inverse) / Math.max(1 - MOST_BLED, Math.exp(habit) - inverse));
  }

  /** Derivative of {@link #bleedFactor} by the habit. */
  static double bleedSlope(double elasticity, double habit) {
    double inverse = inverseCycles(elasticity);
    double up = Math.exp(habit);
    return inverse <= 0 ? elasticity : -up / Math.max(1 - MOST_BLED, up - inverse);
  }

  private static double inverseCycles(double elasticity) {
    return elasticity < -1 ? Math.min(MOST_BLED, 1 + 1 / elasticity) : 0;
  }
}
