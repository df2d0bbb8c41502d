package towerledger.balance;

/**
 * How one cause of one size shows in the water: the hypotheses that the readings are held against.
 *
 * @param cause the cause
 * @param shape where and when water leaves
 * @param size rate of the loss as a multiple of the reference evaporation; 0 without loss
 * @param aimFactor factor on the concentration at which the bleed opens
 * @param makeupFactor factor on what the makeup meter shows
 * @param bleedFactor factor on what the bleed meter shows
 * @param sampleFactor factor on what the samples show
 * @param loadFactor factor on the modelled load
 * @param prior how often it begins, per sound system and year
 */
record Signature(
    Cause cause,
    Shape shape,
    double size,
    double aimFactor,
    double makeupFactor,
    double bleedFactor,
    double sampleFactor,
    double loadFactor,
    double prior) {

  /** Load factor below which a system counts as standing. */
  static final double STANDS = 0.5;

  /** Where and when water leaves. */
  enum Shape {
    /** No water leaves. */
    NOWHERE,
    /** Basin water at a steady rate, day and night. */
    BASIN_ALWAYS,
    /** Basin water while the pumps run. */
    BASIN_RUNNING,
    /** Basin water with the air flow. */
    BASIN_LOAD,
    /** Basin water at each stop of the pumps. */
    BASIN_STOPS,
    /** Fill that passes though nothing is needed, and runs over. */
    FILL_PASSING,
    /** Bleed that runs while the pumps run. */
    BLEED_RUNNING,
    /** Makeup water before it reaches the basin, day and night. */
    FRESH_ALWAYS,
    /** Makeup water in working hours. */
    FRESH_WORKING
  }

  static Signature sound() {
    return new Signature(Cause.NONE, Shape.NOWHERE, 0, 1, 1, 1, 1, 1, 0);
  }

  static Signature loss(Cause cause, Shape shape, double size, double prior) {
    return new Signature(cause, shape, size, 1, 1, 1, 1, 1, prior);
  }

  static Signature aim(Cause cause, double aimFactor, double sampleFactor, double prior) {
    return new Signature(cause, Shape.NOWHERE, 0, aimFactor, 1, 1, sampleFactor, 1, prior);
  }

  static Signature makeupMeter(Cause cause, double factor, double prior) {
    return new Signature(cause, Shape.NOWHERE, 0, 1, factor, 1, 1, 1, prior);
  }

  static Signature bleedMeter(double factor, double prior) {
    return new Signature(Cause.BLOWDOWN_METER_ERROR, Shape.NOWHERE, 0, 1, 1, factor, 1, 1, prior);
  }

  static Signature load(Cause cause, double factor, double prior) {
    return new Signature(cause, Shape.NOWHERE, 0, 1, 1, 1, 1, factor, prior);
  }

  /** Factor on the load that no guess lacks where the system stands or nearly stands. */
  double standing() {
    return loadFactor < STANDS ? loadFactor : 1;
  }

  /** Whether it is a way of life of a sound system, not a fault. */
  boolean sane() {
    return cause == Cause.NONE;
  }

  /** Whether more water is drawn than in sound state. */
  boolean drawsWater() {
    return !sane() && (shape != Shape.NOWHERE || aimFactor < 1);
  }

  /** What the water does, whatever meters and samples show of it. */
  record Flow(Shape shape, double size, double aimFactor) {}

  /** What the water does: signatures of one flow differ in what meters and samples show. */
  Flow flow() {
    return new Flow(shape, size, aimFactor);
  }

  /** Whether another is the same loss in a larger size. */
  boolean growsInto(Signature other) {
    return cause == other.cause && shape == other.shape && size < other.size;
  }

  /** Whether fresh rather than concentrated water is lost. */
  boolean fresh() {
    return shape == Shape.FRESH_ALWAYS || shape == Shape.FRESH_WORKING;
  }
}
