package towerledger.ledger;

/**
 * How far a sum may lie below and above its best estimate, 95 %. The two sides are kept apart, so
 * that one lopsided estimate alone stays as lopsided as it is told by itself.
 *
 * @param below how far the lower bound lies below, 0 or more
 * @param above how far the upper bound lies above, 0 or more
 */
public record Doubt(double below, double above) {

  /** None at all. */
  public static final Doubt NONE = new Doubt(0, 0);

  /** Of an estimate with its bounds. */
  public static Doubt of(double value, double low, double high) {
    return new Doubt(Math.max(0, value - low), Math.max(0, high - value));
  }

  /** With that of an independent estimate: they add as squares (JCGM 100:2008, 5.1.2). */
  public Doubt beside(Doubt other) {
    return new Doubt(Math.hypot(below, other.below), Math.hypot(above, other.above));
  }

  /** With that of an estimate whose errors are the same: they add as they are. */
  public Doubt together(Doubt other) {
    return new Doubt(below + other.below, above + other.above);
  }
}
