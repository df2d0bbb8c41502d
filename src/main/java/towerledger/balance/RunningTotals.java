package towerledger.balance;

import java.util.List;

/** What running totals by block come to over stretches of time. */
final class RunningTotals {

  private RunningTotals() {}

  /** Running totals of a column: element i holds the sum before i. */
  static double[] of(double[] column) {
    double[] totals = new double[column.length + 1];
    for (int i = 0; i < column.length; i++) {
      totals[i + 1] = totals[i] + column[i];
    }
    return totals;
  }

  /** What has run up to a fractional position. */
  private static double at(double[] running, double position) {
    int last = running.length - 1;
    if (position <= 0) {
      return 0;
    }
    if (position >= last) {
      return running[last];
    }
    int i = (int) position;
    return running[i] + (position - i) * (running[i + 1] - running[i]);
  }

  /** What runs between two positions. */
  static double between(double[] running, double from, double to) {
    return at(running, to) - at(running, from);
  }

  /** What runs in each period. */
  static double[] byPeriod(double[] running, List<Period> periods) {
    double[] each = new double[periods.size()];
    for (int p = 0; p < each.length; p++) {
      each[p] = between(running, periods.get(p).from(), periods.get(p).to());
    }
    return each;
  }

  /** What runs in each month. */
  static double[] byMonth(double[] running, MonthFrame frame) {
    double[] each = new double[frame.bounds().length];
    for (int m = 0; m < each.length; m++) {
      each[m] = between(running, frame.from(m), frame.to(m));
    }
    return each;
  }
}
