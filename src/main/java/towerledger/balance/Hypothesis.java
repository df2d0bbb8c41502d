package towerledger.balance;

/**
 * One story about a system that is being followed: a signature since an onset, with the load
 * multiplier, the basin's habit and the season's own scatter estimated along it. Mutable; the
 * filter owns it.
 *
 * <p>State: 0 log of the load multiplier, 1 log of the habitual basin concentration over the aim, 2
 * scatter of the model and its evidence at this time of the year, in standard deviations.
 */
final class Hypothesis {

  /** Onset before the record began. */
  static final int ALWAYS = -1;

  /** What the water does now; 0 when nothing is wrong any more. */
  final int signature;

  /** What was wrong: the signature, or the one that has ended. */
  final int was;

  int onset;

  /** Period in which the fault ended. */
  int end = Integer.MAX_VALUE;

  double logWeight;
  double load;
  double habit;
  double scatter;
  double pLoad;
  double pHabit;
  double pScatter;
  double pLoadHabit;
  double pLoadScatter;
  double pHabitScatter;

  /** Sum of scatter × days for the month of even and of odd number last touched, with its days. */
  final double[] monthScatter = new double[2];

  final double[] monthDays = new double[2];
  final int[] monthOf = {Integer.MIN_VALUE, Integer.MIN_VALUE};

  Hypothesis(int signature, int onset, double logWeight) {
    this(signature, signature, onset, logWeight);
  }

  private Hypothesis(int signature, int was, int onset, double logWeight) {
    this.signature = signature;
    this.was = was;
    this.onset = onset;
    this.logWeight = logWeight;
  }

  /** The same system with a fault that begins. */
  Hypothesis begin(int newSignature, int newOnset, double newLogWeight) {
    return copy(newSignature, newSignature, newOnset, newLogWeight);
  }

  /** The same system after its fault has ended. */
  Hypothesis ended(int at, double newLogWeight) {
    Hypothesis copy = copy(0, was, onset, newLogWeight);
    copy.end = at;
    return copy;
  }

  Hypothesis copy() {
    Hypothesis copy = copy(signature, was, onset, logWeight);
    copy.end = end;
    return copy;
  }

  /** Whether the fault lies behind. */
  boolean over() {
    return was != signature;
  }

  private Hypothesis copy(int newSignature, int newWas, int newOnset, double newLogWeight) {
    Hypothesis copy = new Hypothesis(newSignature, newWas, newOnset, newLogWeight);
    copy.load = load;
    copy.habit = habit;
    copy.scatter = scatter;
    copy.pLoad = pLoad;
    copy.pHabit = pHabit;
    copy.pScatter = pScatter;
    copy.pLoadHabit = pLoadHabit;
    copy.pLoadScatter = pLoadScatter;
    copy.pHabitScatter = pHabitScatter;
    for (int i = 0; i < 2; i++) {
      copy.monthScatter[i] = monthScatter[i];
      copy.monthDays[i] = monthDays[i];
      copy.monthOf[i] = monthOf[i];
    }
    return copy;
  }

  /**
   * Passes time: the load multiplier wanders, habit and scatter fall back towards nothing and take
   * up new variance.
   *
   * @param habitKept part of the habit that lasts
   * @param scatterKept part of the scatter that lasts; its variance tends to one
   */
  void predict(double loadVariance, double habitKept, double habitVariance, double scatterKept) {
    pLoad += loadVariance;
    habit *= habitKept;
    pHabit = habitKept * habitKept * pHabit + habitVariance;
    pLoadHabit *= habitKept;
    scatter *= scatterKept;
    pScatter = scatterKept * scatterKept * pScatter + 1 - scatterKept * scatterKept;
    pLoadScatter *= scatterKept;
    pHabitScatter *= habitKept * scatterKept;
  }

  /**
   * Takes in one measurement that may now and then be a blunder.
   *
   * @param residual measured less predicted
   * @param hLoad derivative of the prediction by each state
   * @param variance of the measurement
   * @param blunder probability of a blunder
   * @param blunderVariance variance that a blunder adds
   */
  void update(
      double residual,
      double hLoad,
      double hHabit,
      double hScatter,
      double variance,
      double blunder,
      double blunderVariance) {
    double cLoad = pLoad * hLoad + pLoadHabit * hHabit + pLoadScatter * hScatter;
    double cHabit = pLoadHabit * hLoad + pHabit * hHabit + pHabitScatter * hScatter;
    double cScatter = pLoadScatter * hLoad + pHabitScatter * hHabit + pScatter * hScatter;
    double s = hLoad * cLoad + hHabit * cHabit + hScatter * cScatter + variance;
    double wide = s + blunderVariance;
    double sound = (1 - blunder) * Math.exp(-0.5 * residual * residual / s) / Math.sqrt(s);
    double off = blunder * Math.exp(-0.5 * residual * residual / wide) / Math.sqrt(wide);
    double sum = sound + off + 1e-300;
    logWeight += Math.log(sum);
    double gain = (sound / s + off / wide) / sum;
    double step = gain * residual;
    load += cLoad * step;
    habit += cHabit * step;
    scatter += cScatter * step;
    pLoad -= cLoad * cLoad * gain;
    pHabit -= cHabit * cHabit * gain;
    pScatter -= cScatter * cScatter * gain;
    pLoadHabit -= cLoad * cHabit * gain;
    pLoadScatter -= cLoad * cScatter * gain;
    pHabitScatter -= cHabit * cScatter * gain;
  }

  /** Joins another story that acts alike from now on into this one; the likelier onset stays. */
  void absorb(Hypothesis other) {
    double top = Math.max(logWeight, other.logWeight);
    double a = Math.exp(logWeight - top);
    double b = Math.exp(other.logWeight - top);
    double share = b / (a + b);
    double dLoad = other.load - load;
    double dHabit = other.habit - habit;
    if (other.logWeight > logWeight && was == other.was) {
      onset = other.onset;
      end = other.end;
    }
    pLoad += share * (other.pLoad - pLoad) + share * (1 - share) * dLoad * dLoad;
    pHabit += share * (other.pHabit - pHabit) + share * (1 - share) * dHabit * dHabit;
    pLoadHabit += share * (other.pLoadHabit - pLoadHabit) + share * (1 - share) * dLoad * dHabit;
    double dScatter = other.scatter - scatter;
    pScatter += share * (other.pScatter - pScatter) + share * (1 - share) * dScatter * dScatter;
    pLoadScatter +=
        share * (other.pLoadScatter - pLoadScatter) + share * (1 - share) * dLoad * dScatter;
    pHabitScatter +=
        share * (other.pHabitScatter - pHabitScatter) + share * (1 - share) * dHabit * dScatter;
    load += share * dLoad;
    habit += share * dHabit;
    scatter += share * dScatter;
    logWeight = top + Math.log(a + b);
  }

  /**
   * Books the scatter of a period to a month.
   *
   * @param deviation what one standard deviation of scatter does to the log of the load
   */
  void book(int month, double days, double deviation) {
    int slot = Math.floorMod(month, 2);
    if (monthOf[slot] != month) {
      monthOf[slot] = month;
      monthScatter[slot] = 0;
      monthDays[slot] = 0;
    }
    monthScatter[slot] += deviation * scatter * days;
    monthDays[slot] += days;
  }

  /** Mean scatter of a month's load, 0 where no period fell into it. */
  double scatterOf(int month) {
    int slot = Math.floorMod(month, 2);
    return monthOf[slot] == month && monthDays[slot] > 0 ? monthScatter[slot] / monthDays[slot] : 0;
  }
}
