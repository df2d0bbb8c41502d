package towerledger.thermal;

/**
 * A polynomial over the cold-water coordinate, 0 … 1, cut into pieces of equal length, each a
 * parabola through its ends and its middle. A look-up needs the three coefficients of one piece
 * instead of all the polynomial has.
 */
final class ColdWaterPieces {

  /** Number of pieces. */
  static final int COUNT = 4;

  /** Coefficients of a piece. */
  static final int COEFFICIENTS = 3;

  private ColdWaterPieces() {}

  /** The piece in which a coordinate lies; the outermost pieces reach beyond 0 and 1. */
  static int of(double y) {
    return Math.max(0, Math.min((int) (y * COUNT), COUNT - 1));
  }

  /** Way into a piece, 0 at its lower end and 1 at its upper. */
  static double within(int piece, double y) {
    return y * COUNT - piece;
  }

  /**
   * Coefficients of a piece, in powers of the way into it.
   *
   * @param polynomial coefficients of the whole (see {@link ChebyshevNodes})
   */
  static void cut(double[] polynomial, int piece, double[] into, int offset) {
    double lower = ChebyshevNodes.value(polynomial, 0, (double) piece / COUNT);
    double middle = ChebyshevNodes.value(polynomial, 0, (piece + 0.5) / COUNT);
    double upper = ChebyshevNodes.value(polynomial, 0, (piece + 1.0) / COUNT);
    into[offset] = lower;
    into[offset + 1] = 4 * middle - 3 * lower - upper;
    into[offset + 2] = 2 * (lower + upper - 2 * middle);
  }
}
