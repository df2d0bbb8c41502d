package towerledger.balance;

/**
 * What is estimated of a system along one story, with its covariance: normal, six quantities, taken
 * in one measurement at a time (a Kalman filter whose measurements may be blunders). Mutable.
 *
 * <p>Each number stands in a field of its own, as there are hundreds of stories to be copied and
 * weighed at every period: a covariance is named by its two quantities.
 */
final class Calibration {

  /** Log of the load multiplier. */
  private double load;

  /** Log of the habitual basin concentration over the aim. */
  private double habit;

  /** Scatter of model and evidence at this time of the year, in standard deviations. */
  private double scatter;

  /** Load that the guessed shape lacks at all hours of running, as a part of the reference load. */
  private double base;

  /** How much of the guessed shape the load lacks between readings of heat: 1 is wholly even. */
  private double even;

  /** Size of the fault over the one its story has, in steps of the sizes followed. */
  private double size;

  private double loadLoad;
  private double loadHabit;
  private double loadScatter;
  private double loadBase;
  private double loadEven;
  private double loadSize;
  private double habitHabit;
  private double habitScatter;
  private double habitBase;
  private double habitEven;
  private double habitSize;
  private double scatterScatter;
  private double scatterBase;
  private double scatterEven;
  private double scatterSize;
  private double baseBase;
  private double baseEven;
  private double baseSize;
  private double evenEven;
  private double evenSize;
  private double sizeSize;

  /** Nothing is known, and nothing is uncertain. */
  Calibration() {}

  /** A copy of another. */
  Calibration(Calibration other) {
    load = other.load;
    habit = other.habit;
    scatter = other.scatter;
    base = other.base;
    even = other.even;
    size = other.size;
    loadLoad = other.loadLoad;
    loadHabit = other.loadHabit;
    loadScatter = other.loadScatter;
    loadBase = other.loadBase;
    loadEven = other.loadEven;
    loadSize = other.loadSize;
    habitHabit = other.habitHabit;
    habitScatter = other.habitScatter;
    habitBase = other.habitBase;
    habitEven = other.habitEven;
    habitSize = other.habitSize;
    scatterScatter = other.scatterScatter;
    scatterBase = other.scatterBase;
    scatterEven = other.scatterEven;
    scatterSize = other.scatterSize;
    baseBase = other.baseBase;
    baseEven = other.baseEven;
    baseSize = other.baseSize;
    evenEven = other.evenEven;
    evenSize = other.evenSize;
    sizeSize = other.sizeSize;
  }

  double load() {
    return load;
  }

  double habit() {
    return habit;
  }

  double scatter() {
    return scatter;
  }

  double base() {
    return base;
  }

  double even() {
    return even;
  }

  double size() {
    return size;
  }

  double loadVariance() {
    return loadLoad;
  }

  double habitVariance() {
    return habitHabit;
  }

  double scatterVariance() {
    return scatterScatter;
  }

  double baseVariance() {
    return baseBase;
  }

  double sizeVariance() {
    return sizeSize;
  }

  void shiftLoad(double by) {
    load += by;
  }

  void shiftHabit(double by) {
    habit += by;
  }

  void widenLoad(double variance) {
    loadLoad += variance;
  }

  void widenHabit(double variance) {
    habitHabit += variance;
  }

  void widenScatter(double variance) {
    scatterScatter += variance;
  }

  void widenBase(double variance) {
    baseBase += variance;
  }

  void widenEven(double variance) {
    evenEven += variance;
  }

  void widenSize(double variance) {
    sizeSize += variance;
  }

  /** Forgets what was learned of the load, and what the others have to do with it. */
  void setLoad(double mean, double variance) {
    load = mean;
    loadLoad = variance;
    loadHabit = 0;
    loadScatter = 0;
    loadBase = 0;
    loadEven = 0;
    loadSize = 0;
  }

  /** Forgets what was learned of the base, and what the others have to do with it. */
  void setBase(double mean, double variance) {
    base = mean;
    baseBase = variance;
    loadBase = 0;
    habitBase = 0;
    scatterBase = 0;
    baseEven = 0;
    baseSize = 0;
  }

  /** Forgets what was learned of the size, and what the others have to do with it. */
  void setSize(double mean, double variance) {
    size = mean;
    sizeSize = variance;
    loadSize = 0;
    habitSize = 0;
    scatterSize = 0;
    baseSize = 0;
    evenSize = 0;
  }

  /** Lets the habit fall back towards nothing: a part is kept, new variance is taken up. */
  void fadeHabit(double kept, double variance) {
    if (kept == 1) {
      habitHabit += variance;
      return;
    }
    habit *= kept;
    loadHabit *= kept;
    habitScatter *= kept;
    habitBase *= kept;
    habitEven *= kept;
    habitSize *= kept;
    habitHabit = habitHabit * kept * kept + variance;
  }

  /** The same of the scatter. */
  void fadeScatter(double kept, double variance) {
    scatter *= kept;
    loadScatter *= kept;
    habitScatter *= kept;
    scatterBase *= kept;
    scatterEven *= kept;
    scatterSize *= kept;
    scatterScatter = scatterScatter * kept * kept + variance;
  }

  /**
   * Takes in one measurement that may now and then be a blunder.
   *
   * @param residual measured less predicted
   * @param byLoad derivative of the prediction by the load; the others likewise
   * @param variance of the measurement
   * @param blunder probability of a blunder
   * @param blunderVariance variance that a blunder adds
   * @return log of how likely the measurement was, but for a constant
   */
  double update(
      double residual,
      double byLoad,
      double byHabit,
      double byScatter,
      double byBase,
      double byEven,
      double bySize,
      double variance,
      double blunder,
      double blunderVariance) {
    double gainLoad =
        loadLoad * byLoad
            + loadHabit * byHabit
            + loadScatter * byScatter
            + loadBase * byBase
            + loadEven * byEven
            + loadSize * bySize;
    double gainHabit =
        loadHabit * byLoad
            + habitHabit * byHabit
            + habitScatter * byScatter
            + habitBase * byBase
            + habitEven * byEven
            + habitSize * bySize;
    double gainScatter =
        loadScatter * byLoad
            + habitScatter * byHabit
            + scatterScatter * byScatter
            + scatterBase * byBase
            + scatterEven * byEven
            + scatterSize * bySize;
    double gainBase =
        loadBase * byLoad
            + habitBase * byHabit
            + scatterBase * byScatter
            + baseBase * byBase
            + baseEven * byEven
            + baseSize * bySize;
    double gainEven =
        loadEven * byLoad
            + habitEven * byHabit
            + scatterEven * byScatter
            + baseEven * byBase
            + evenEven * byEven
            + evenSize * bySize;
    double gainSize =
        loadSize * byLoad
            + habitSize * byHabit
            + scatterSize * byScatter
            + baseSize * byBase
            + evenSize * byEven
            + sizeSize * bySize;
    double whole =
        variance
            + byLoad * gainLoad
            + byHabit * gainHabit
            + byScatter * gainScatter
            + byBase * gainBase
            + byEven * gainEven
            + bySize * gainSize;
    Belief belief = Belief.in(residual, whole, blunder, blunderVariance);
    double weight = belief.weight();
    double moved = weight * residual;
    load += gainLoad * moved;
    habit += gainHabit * moved;
    scatter += gainScatter * moved;
    base += gainBase * moved;
    even += gainEven * moved;
    size += gainSize * moved;
    loadLoad -= gainLoad * gainLoad * weight;
    loadHabit -= gainLoad * gainHabit * weight;
    loadScatter -= gainLoad * gainScatter * weight;
    loadBase -= gainLoad * gainBase * weight;
    loadEven -= gainLoad * gainEven * weight;
    loadSize -= gainLoad * gainSize * weight;
    habitHabit -= gainHabit * gainHabit * weight;
    habitScatter -= gainHabit * gainScatter * weight;
    habitBase -= gainHabit * gainBase * weight;
    habitEven -= gainHabit * gainEven * weight;
    habitSize -= gainHabit * gainSize * weight;
    scatterScatter -= gainScatter * gainScatter * weight;
    scatterBase -= gainScatter * gainBase * weight;
    scatterEven -= gainScatter * gainEven * weight;
    scatterSize -= gainScatter * gainSize * weight;
    baseBase -= gainBase * gainBase * weight;
    baseEven -= gainBase * gainEven * weight;
    baseSize -= gainBase * gainSize * weight;
    evenEven -= gainEven * gainEven * weight;
    evenSize -= gainEven * gainSize * weight;
    sizeSize -= gainSize * gainSize * weight;
    return belief.logLikelihood();
  }

  /**
   * Becomes the normal estimate of a mixture of this and another.
   *
   * @param share weight of the other, 0 to 1
   */
  void mix(Calibration other, double share) {
    double apart = share * (1 - share);
    double byLoad = other.load - load;
    double byHabit = other.habit - habit;
    double byScatter = other.scatter - scatter;
    double byBase = other.base - base;
    double byEven = other.even - even;
    double bySize = other.size - size;
    loadLoad += share * (other.loadLoad - loadLoad) + apart * (byLoad * byLoad);
    loadHabit += share * (other.loadHabit - loadHabit) + apart * (byLoad * byHabit);
    loadScatter += share * (other.loadScatter - loadScatter) + apart * (byLoad * byScatter);
    loadBase += share * (other.loadBase - loadBase) + apart * (byLoad * byBase);
    loadEven += share * (other.loadEven - loadEven) + apart * (byLoad * byEven);
    loadSize += share * (other.loadSize - loadSize) + apart * (byLoad * bySize);
    habitHabit += share * (other.habitHabit - habitHabit) + apart * (byHabit * byHabit);
    habitScatter += share * (other.habitScatter - habitScatter) + apart * (byHabit * byScatter);
    habitBase += share * (other.habitBase - habitBase) + apart * (byHabit * byBase);
    habitEven += share * (other.habitEven - habitEven) + apart * (byHabit * byEven);
    habitSize += share * (other.habitSize - habitSize) + apart * (byHabit * bySize);
    scatterScatter +=
        share * (other.scatterScatter - scatterScatter) + apart * (byScatter * byScatter);
    scatterBase += share * (other.scatterBase - scatterBase) + apart * (byScatter * byBase);
    scatterEven += share * (other.scatterEven - scatterEven) + apart * (byScatter * byEven);
    scatterSize += share * (other.scatterSize - scatterSize) + apart * (byScatter * bySize);
    baseBase += share * (other.baseBase - baseBase) + apart * (byBase * byBase);
    baseEven += share * (other.baseEven - baseEven) + apart * (byBase * byEven);
    baseSize += share * (other.baseSize - baseSize) + apart * (byBase * bySize);
    evenEven += share * (other.evenEven - evenEven) + apart * (byEven * byEven);
    evenSize += share * (other.evenSize - evenSize) + apart * (byEven * bySize);
    sizeSize += share * (other.sizeSize - sizeSize) + apart * (bySize * bySize);
    load += share * byLoad;
    habit += share * byHabit;
    scatter += share * byScatter;
    base += share * byBase;
    even += share * byEven;
    size += share * bySize;
  }
}
