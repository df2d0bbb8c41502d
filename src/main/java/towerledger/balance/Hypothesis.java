package towerledger.balance;

import org.jspecify.annotations.Nullable;

/**
 * One story about a system that is being followed: a signature since an onset, with what is
 * calibrated along it. Mutable; the filter owns it.
 */
final class Hypothesis {

  /** Onset before the record began. */
  static final int ALWAYS = -1;

  /** How far a size is drawn out from its signature's at most, in steps. */
  private static final double LEAST_SIZE = -1;

  private static final double MOST_SIZE = 1.5;

  /** What the water does now; 0 when nothing is wrong any more. */
  final int signature;

  /** What was wrong: the signature, or the one that has ended. */
  final int was;

  final Calibration calibration;

  /** How the tower's days differ from the model's; null where no makeup is logged. */
  @Nullable DayHabit days;

  int onset;

  /**
   * Number of the response of a sound system that the tower lives by, on top of which the fault
   * acts: 0 for the plain one, that of an unnoted drain for as long as it shows.
   */
  int way;

  /** What heat of other grades was calibrated to; null while there was but one grade. */
  @Nullable KnownLoads loads;

  /** Period in which the fault ended. */
  int end = Integer.MAX_VALUE;

  double logWeight;

  /** Days of the periods booked to a month, held in common by all stories. */
  private final BookedDays booked;

  /** Scatter × days of the months whose days are booked, of even and of odd number. */
  private double evenScatterDays;

  private double oddScatterDays;

  // Exponentials and what they are of: a month that has closed asks for them again and again.

  private double weightOf = Double.NaN;
  private double weight;
  private double loadFactorOf = Double.NaN;
  private double loadFactor;
  private double monthFactorOf = Double.NaN;
  private double monthFactor;
  private double keptOf = Double.NaN;
  private double kept;

  /**
   * A story of which nothing has been learned yet.
   *
   * @param booked days booked to the months so far, held in common by all stories
   */
  Hypothesis(int signature, int onset, double logWeight, BookedDays booked) {
    this(signature, signature, onset, logWeight, new Calibration(), booked);
    calibration.setSize(0, SignatureCatalogue.SIZE_VARIANCE);
  }

  private Hypothesis(
      int signature,
      int was,
      int onset,
      double logWeight,
      Calibration calibration,
      BookedDays booked) {
    this.signature = signature;
    this.was = was;
    this.onset = onset;
    this.logWeight = logWeight;
    this.calibration = calibration;
    this.booked = booked;
  }

  /** The same system with a fault that begins, of about the size that its signature has. */
  Hypothesis begin(int newSignature, int newOnset, double newLogWeight) {
    Hypothesis begun = copy(newSignature, newSignature, newOnset, newLogWeight);
    begun.calibration.setSize(0, SignatureCatalogue.SIZE_VARIANCE);
    return begun;
  }

  /** The same system after its fault has ended. */
  Hypothesis ended(int at, double newLogWeight) {
    Hypothesis copy = copy(0, was, onset, newLogWeight);
    copy.end = at;
    return copy;
  }

  /** The same story of a tower that lives otherwise. */
  Hypothesis living(int newWay, double newLogWeight) {
    Hypothesis copy = copy(signature, was, onset, newLogWeight);
    copy.end = end;
    copy.way = newWay;
    return copy;
  }

  /** Whether it tells of the same fault in the same time as another. */
  boolean tellsThat(Hypothesis other) {
    return signature == other.signature
        && was == other.was
        && onset == other.onset
        && end == other.end;
  }

  /** Whether it is a sound system that lives in one way all the time. */
  boolean soundAllAlong() {
    return signature == 0 && was == 0;
  }

  /** Whether the fault lies behind. */
  boolean over() {
    return was != signature;
  }

  /** Number of the response that a period shows: that of its last days where the fault ends. */
  int responseIn(int period) {
    return end == period ? was : signature;
  }

  /** Whether the fault begins or ends within a period. */
  boolean turnsIn(int period) {
    return onset == period || end == period;
  }

  /** Part of a fault's effect that a period shows: half where it begins or ends. */
  double partIn(int period) {
    return turnsIn(period) ? 0.5 : 1;
  }

  private Hypothesis copy(int newSignature, int newWas, int newOnset, double newLogWeight) {
    Hypothesis copy =
        new Hypothesis(
            newSignature, newWas, newOnset, newLogWeight, new Calibration(calibration), booked);
    copy.evenScatterDays = evenScatterDays;
    copy.oddScatterDays = oddScatterDays;
    copy.days = days == null ? null : days.copy();
    copy.loads = loads == null ? null : loads.copy();
    copy.way = way;
    return copy;
  }

  /** Weight, the exponential of its log. */
  double weight() {
    if (weightOf != logWeight) {
      weightOf = logWeight;
      weight = Math.exp(logWeight);
    }
    return weight;
  }

  double load() {
    return calibration.load();
  }

  /** Load multiplier. */
  double loadFactor() {
    double log = load();
    if (loadFactorOf != log) {
      loadFactorOf = log;
      loadFactor = Math.exp(log);
    }
    return loadFactor;
  }

  /** Load multiplier in a month, its scatter included. */
  double loadFactorIn(int month) {
    double log = load() + scatterOf(month);
    if (monthFactorOf != log) {
      monthFactorOf = log;
      monthFactor = Math.exp(log);
    }
    return monthFactor;
  }

  /** Concentration kept over the one aimed at. */
  double kept() {
    double log = habit();
    if (keptOf != log) {
      keptOf = log;
      kept = Math.exp(log);
    }
    return kept;
  }

  double loadVariance() {
    return calibration.loadVariance();
  }

  double habit() {
    return calibration.habit();
  }

  double habitVariance() {
    return calibration.habitVariance();
  }

  double scatter() {
    return calibration.scatter();
  }

  double scatterVariance() {
    return calibration.scatterVariance();
  }

  /**
   * Water that the guessed shape of the load lacks, or gives too much where below 0, L.
   *
   * @param baseL water of the reference load at all hours of running, L
   * @param evenL water that an even load takes more, L
   */
  double lacked(double baseL, double evenL) {
    return calibration.base() * baseL + calibration.even() * evenL;
  }

  /** Size of the fault over that of its signature, in steps, kept to what may be drawn out to. */
  double size() {
    return Math.max(LEAST_SIZE, Math.min(MOST_SIZE, calibration.size()));
  }

  double sizeVariance() {
    return calibration.sizeVariance();
  }

  double baseVariance() {
    return calibration.baseVariance();
  }

  /** Joins another story that acts alike from now on into this one; the likelier onset stays. */
  void absorb(Hypothesis other) {
    double top = Math.max(logWeight, other.logWeight);
    double a = Math.exp(logWeight - top);
    double b = Math.exp(other.logWeight - top);
    if (other.logWeight > logWeight && was == other.was) {
      onset = other.onset;
      end = other.end;
    }
    calibration.mix(other.calibration, b / (a + b));
    if (days != null && other.days != null) {
      days.mix(other.days, b / (a + b));
    }
    if (loads != null && other.loads != null) {
      loads.mix(other.loads, b / (a + b));
    }
    logWeight = top + Math.log(a + b);
  }

  /**
   * Books the scatter of a period to a month.
   *
   * @param first whether it is the month's first period
   * @param deviation what one standard deviation of scatter does to the log of the load
   */
  void book(int month, boolean first, double days, double deviation) {
    double scatterDays = deviation * scatter() * days;
    if (BookedDays.slot(month) == 0) {
      evenScatterDays = first ? scatterDays : evenScatterDays + scatterDays;
    } else {
      oddScatterDays = first ? scatterDays : oddScatterDays + scatterDays;
    }
  }

  /** Mean scatter of a month's load, 0 where no period fell into it. */
  double scatterOf(int month) {
    double days = booked.of(month);
    double scatterDays = BookedDays.slot(month) == 0 ? evenScatterDays : oddScatterDays;
    return days > 0 ? scatterDays / days : 0;
  }
}
