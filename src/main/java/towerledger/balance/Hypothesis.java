package towerledger.balance;

/**
 * One story about a system that is being followed: a signature since an onset, with the load
 * multiplier, the basin's habit and the month's own scatter estimated along it. Mutable; the filter
 * owns it.
 *
 * <p>State: 0 log of the load multiplier, 1 log of the habitual basin concentration over the aim, 2
 * scatter of the current period's load.
 */
final class Hypothesis {

  /** Onset before the record began. */
  static final int ALWAYS = -1;

  final int signature;
  int onset;
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
    this.signature = signature;
    this.onset = onset;
    this.logWeight = logWeight;
  }

  Hypothesis copy(int newSignature, int newOnset, double newLogWeight) {
    Hypothesis copy = new Hypothesis(newSignature, newOnset, newLogWeight);
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

  /** Passes time: the load multiplier and the habit wander, the scatter starts anew. */
  void predict(double loadVariance, double habitVariance, double scatterVariance) {
    pLoad += loadVariance;
    pHabit += habitVariance;
    scatter = 0;
    pScatter = scatterVariance;
    pLoadScatter = 0;
    pHabitScatter = 0;
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

  /** Joins another story of the same signature into this one; the likelier onset stays. */
  void absorb(Hypothesis other) {
    double top = Math.max(logWeight, other.logWeight);
    double a = Math.exp(logWeight - top);
    double b = Math.exp(other.logWeight - top);
    double share = b / (a + b);
    double dLoad = other.load - load;
    double dHabit = other.habit - habit;
    if (other.logWeight > logWeight) {
      onset = other.onset;
    }
    pLoad += share * (other.pLoad - pLoad) + share * (1 - share) * dLoad * dLoad;
    pHabit += share * (other.pHabit - pHabit) + share * (1 - share) * dHabit * dHabit;
    pLoadHabit += share * (other.pLoadHabit - pLoadHabit) + share * (1 - share) * dLoad * dHabit;
    load += share * dLoad;
    habit += share * dHabit;
    scatter += share * (other.scatter - scatter);
    logWeight = top + Math.log(a + b);
  }

  /** Books the scatter of a period to a month. */
  void book(int month, double days) {
    int slot = Math.floorMod(month, 2);
    if (monthOf[slot] != month) {
      monthOf[slot] = month;
      monthScatter[slot] = 0;
      monthDays[slot] = 0;
    }
    monthScatter[slot] += scatter * days;
    monthDays[slot] += days;
  }

  /** Mean scatter of a month's load, 0 where no period fell into it. */
  double scatterOf(int month) {
    int slot = Math.floorMod(month, 2);
    return monthOf[slot] == month && monthDays[slot] > 0 ? monthScatter[slot] / monthDays[slot] : 0;
  }
}
