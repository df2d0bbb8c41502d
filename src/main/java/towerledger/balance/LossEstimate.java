package towerledger.balance;

import java.util.List;
import towerledger.statistics.NormalMixture;

/** Extra water of a month, or since the onset, told by all living hypotheses together. */
final class LossEstimate {

  private final List<Response> responses;
  private final List<Period> periods;
  private final MonthFrame frame;

  LossEstimate(List<Response> responses, List<Period> periods, MonthFrame frame) {
    this.responses = responses;
    this.periods = periods;
    this.frame = frame;
  }

  /** Where a hypothesis puts the onset, in blocks. */
  double onset(Hypothesis h) {
    if (h.onset == Hypothesis.ALWAYS) {
      return Double.NEGATIVE_INFINITY;
    }
    Period period = periods.get(h.onset);
    return 0.5 * (period.from() + period.to());
  }

  /** Where a hypothesis puts the end, in blocks. */
  private double end(Hypothesis h) {
    if (!h.over()) {
      return Double.POSITIVE_INFINITY;
    }
    Period period = periods.get(h.end);
    return 0.5 * (period.from() + period.to());
  }

  /** Part of a month in which a hypothesis has its fault act, 0–1. */
  double active(Hypothesis h, int month) {
    if (h.was == 0) {
      return 0;
    }
    double from = Math.max(frame.from(month), onset(h));
    double to = Math.min(frame.to(month), end(h));
    return Math.max(0, to - from) / (frame.to(month) - frame.from(month));
  }

  /** Extra water that a hypothesis lays to its fault in a month, L. */
  double extra(Hypothesis h, int month) {
    Response response = responses.get(h.was);
    if (!response.signature.drawsWater()) {
      return 0;
    }
    double whole = response.monthMakeup[month] - responses.get(0).monthMakeup[month];
    return active(h, month) * Math.exp(h.load + h.scatterOf(month)) * Math.max(0, whole);
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
            : response.monthLoss[month];
    return active(h, month) * Math.exp(h.load) * Math.max(0, whole);
  }

  /**
   * Distribution of a month's extra water.
   *
   * @param floorL deviation that even a certain figure keeps: meter and rounding
   */
  NormalMixture month(List<Hypothesis> hypotheses, int month, double floorL) {
    NormalMixture mixture = new NormalMixture();
    for (Hypothesis h : hypotheses) {
      double weight = Math.exp(h.logWeight);
      if (weight < 1e-5) {
        continue;
      }
      double extra = extra(h, month);
      double relative = Math.sqrt(h.pLoad + 0.12 * 0.12);
      mixture.add(weight, extra, Math.hypot(floorL, relative * extra));
    }
    return mixture;
  }

  /** Distribution of the extra water from the onset to the end of a month. */
  NormalMixture since(List<Hypothesis> hypotheses, int month, double floorL) {
    NormalMixture mixture = new NormalMixture();
    for (Hypothesis h : hypotheses) {
      double weight = Math.exp(h.logWeight);
      if (weight < 1e-5 || h.was == 0) {
        continue;
      }
      double extra = 0;
      for (int m = 0; m <= month; m++) {
        extra += extra(h, m);
      }
      double relative = Math.sqrt(h.pLoad + 0.12 * 0.12);
      mixture.add(weight, extra, Math.hypot(floorL, relative * extra));
    }
    return mixture;
  }
}
