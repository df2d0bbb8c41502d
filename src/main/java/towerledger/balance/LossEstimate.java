package towerledger.balance;

import java.util.List;
import towerledger.statistics.NormalMixture;

/** Extra water of a month, or since the onset, told by all living hypotheses together. */
final class LossEstimate {

  /** Relative deviation of a month's loss from its size. */
  private static final double WHOLLY_ACTIVE = 0.1;

  /** The same where the fault began or ended within the month. */
  private static final double PARTLY_ACTIVE = 0.4;

  /** Relative deviation of one month's sound makeup. */
  private static final double SCATTER = 0.03;

  private final List<Response> responses;
  private final LackedWater lacked;
  private final double[] middles;
  private final MonthFrame frame;
  private final double[] strays;

  /**
   * The loss of one system.
   *
   * @param strays by month, what a bleed that strays does to its makeup, ln
   */
  LossEstimate(
      List<Response> responses,
      LackedWater lacked,
      double[] strays,
      List<Period> periods,
      MonthFrame frame) {
    this.strays = strays;
    this.lacked = lacked;
    this.responses = responses;
    this.middles = periods.stream().mapToDouble(p -> 0.5 * (p.from() + p.to())).toArray();
    this.frame = frame;
  }

  /** Deviation of a month's sound makeup by the bleed that strays, ln. */
  double stray(int month) {
    return strays[month];
  }

  /** Where a hypothesis puts the onset, in blocks. */
  double onset(Hypothesis h) {
    if (h.onset == Hypothesis.ALWAYS) {
      return Double.NEGATIVE_INFINITY;
    }
    return middles[h.onset];
  }

  /** Where a hypothesis puts the end, in blocks. */
  private double end(Hypothesis h) {
    if (!h.over()) {
      return Double.POSITIVE_INFINITY;
    }
    return middles[h.end];
  }

  /** Part of a month in which a hypothesis has its fault act, 0–1. */
  double active(Hypothesis h, int month) {
    if (h.was == 0) {
      return 0;
    }
    double begins = frame.from(month);
    double ends = frame.to(month);
    double from = Math.max(begins, onset(h));
    double to = Math.min(ends, end(h));
    return Math.max(0, to - from) / (ends - begins);
  }

  /** Makeup of a month that a sound system draws as a hypothesis has it, at a load of one, L. */
  double soundMakeup(Hypothesis h, int month) {
    double plain = responses.get(0).monthMakeup[month];
    Response response = responses.get(h.was);
    if (h.way != 0) {
      return responses.get(h.way).monthMakeup[month];
    }
    if (!response.signature.sane() || h.was == 0) {
      return plain;
    }
    double lived = response.monthMakeup[month];
    return response.refillL > 0 ? lived : plain + active(h, month) * (lived - plain);
  }

  /**
   * The same at a load multiplier and at the concentration that the basin is kept at, L.
   *
   * @param load load multiplier
   */
  double byHabit(Hypothesis h, int month, double load) {
    double modelled = soundMakeup(h, month);
    Response way = responses.get(h.way);
    if (way.byClock()) {
      double clocked = way.monthBleed[month];
      return load * (modelled - clocked) + clocked / h.kept();
    }
    return load * modelled * Cycles.makeupAt(elasticity(way, month, modelled), h.kept());
  }

  private static double elasticity(Response way, int month, double modelled) {
    return modelled > 0 ? way.monthSlope[month] / modelled : 0;
  }

  /**
   * Variance of {@link #byHabit} by what is not known of the concentration that the basin is kept
   * at, L².
   *
   * @param byShape that makeup, L
   */
  double habitVariance(Hypothesis h, int month, double byShape) {
    Response way = responses.get(h.way);
    double slope =
        way.byClock()
            ? way.monthBleed[month] / h.kept()
            : byShape
                * Cycles.makeupSlopeAt(elasticity(way, month, soundMakeup(h, month)), h.kept());
    return square(slope) * h.habitVariance();
  }

  /** Water that refilled a basin in a month without a note, as a hypothesis has it, L. */
  double refillL(Hypothesis h, int month) {
    Response response = responses.get(h.way == 0 ? h.was : h.way);
    return response.refillBlock >= frame.from(month) && response.refillBlock < frame.to(month)
        ? response.refillL
        : 0;
  }

  /** Extra water that a hypothesis lays to its fault in a month, L. */
  double extra(Hypothesis h, int month) {
    Response response = responses.get(h.was);
    if (!response.signature.drawsWater()) {
      return 0;
    }
    double whole = response.monthMakeup[month] - responses.get(0).monthMakeup[month];
    double grown = Response.grown(whole, h.size(), response.monthMakeupBySize(month));
    return active(h, month) * h.loadFactorIn(month) * Math.max(0, grown);
  }

  /** Water that leaks by a hypothesis in a month, displaced bleed included, L. */
  double gross(Hypothesis h, int month) {
    Response response = responses.get(h.was);
    if (!response.signature.drawsWater()) {
      return 0;
    }
    double whole =
        response.signature.shape() == Signature.Shape.NOWHERE
            ? response.monthMakeup[month] - responses.get(0).monthMakeup[month]
            : response.monthLoss[month] * response.lossFactor(h.size());
    return active(h, month) * h.loadFactor() * Math.max(0, whole);
  }

  /**
   * Extra water of a month by a hypothesis once the month's makeup is known: what the makeup leaves
   * over speaks along with the size that the hypothesis has.
   *
   * @param makeupL metered makeup without other use, L; NaN where it is not known
   * @param into receives the mean and the standard deviation, L
   */
  void told(Hypothesis h, int month, double makeupL, double floorL, double[] into) {
    double extra = extra(h, month);
    double active = active(h, month);
    double relative = active > 0 && active < 1 ? PARTLY_ACTIVE : WHOLLY_ACTIVE;
    double bySize = active * h.loadFactor() * responses.get(h.was).monthMakeupBySize(month);
    double variance = square(relative * extra) + square(bySize) * h.sizeVariance();
    into[0] = extra;
    if (extra > 0 && !Double.isNaN(makeupL)) {
      double byShape = byHabit(h, month, h.loadFactorIn(month));
      double drawn = byShape + lacked.monthMakeup(h, month, byShape);
      double unknown =
          square(byShape) * h.loadVariance()
              + square(lacked.monthBase()[month]) * h.baseVariance()
              + habitVariance(h, month, byShape)
              + square(drawn) * (square(SCATTER) + square(stray(month)))
              + square(floorL);
      double gain = variance / (variance + unknown);
      into[0] = Math.max(0, extra + gain * (makeupL - drawn - extra));
      variance *= 1 - gain;
    }
    into[1] = Math.sqrt(variance + square(floorL));
  }

  private static double square(double x) {
    return x * x;
  }

  /**
   * Distribution of a month's extra water.
   *
   * @param makeupL metered makeup without other use, L
   * @param floorL deviation that even a certain figure keeps: meter and rounding
   */
  NormalMixture month(List<Hypothesis> hypotheses, int month, double makeupL, double floorL) {
    NormalMixture mixture = new NormalMixture();
    double[] told = new double[2];
    double nothing = 0;
    for (Hypothesis h : hypotheses) {
      double weight = h.weight();
      if (weight < 1e-5 && h.was != 0) {
        continue;
      }
      told(h, month, makeupL, floorL, told);
      if (told[0] == 0 && told[1] == floorL) {
        nothing += weight;
      } else {
        mixture.add(weight, told[0], told[1]);
      }
    }
    if (nothing > 0) {
      // Stories without a loss say one and the same.
      mixture.add(nothing, 0, floorL);
    }
    return mixture;
  }

  /**
   * Distribution of the extra water from the onset to the end of a month: the months' own added up,
   * and their deviations too, since the months share most of what is not known.
   *
   * @param makeupL metered makeup without other use, L, of each month; NaN where it is not known
   */
  NormalMixture since(List<Hypothesis> hypotheses, int month, double[] makeupL, double floorL) {
    NormalMixture mixture = new NormalMixture();
    double[] told = new double[2];
    for (Hypothesis h : hypotheses) {
      double weight = h.weight();
      if (weight < 1e-5 || responses.get(h.was).signature.sane()) {
        continue;
      }
      double extra = 0;
      double deviation = 0;
      for (int m = 0; m <= month; m++) {
        if (active(h, m) > 0) {
          told(h, m, makeupL[m], floorL, told);
          extra += told[0];
          deviation += told[1];
        }
      }
      mixture.add(weight, extra, Math.max(floorL, deviation));
    }
    return mixture;
  }
}
