package towerledger.balance;

import java.util.Arrays;

/**
 * How a logged flow is spread within its days, in three figures that do not depend on how much
 * flows:
 *
 * <ul>
 *   <li>{@link #FLOOR} the lowest flow that lasts for hours, over the mean flow: a leak that never
 *       rests cannot be larger than it;
 *   <li>{@link #WORK} the part that flows in working hours: hoses and wash-downs;
 *   <li>{@link #EDGES} the part that flows just after the pumps stop and start: what a basin that
 *       runs over at the stop draws.
 * </ul>
 *
 * <p>A figure is NaN where the stretch cannot tell it.
 */
final class DayProfile {

  static final int FLOOR = 0;
  static final int WORK = 1;
  static final int EDGES = 2;

  static final int FIGURES = 3;

  private static final int HOURS_OF_A_DAY = 24;

  private DayProfile() {}

  /**
   * The figures of a flow over a stretch of hours.
   *
   * @param flow volume of each hour of the record
   * @param hours what kind of hours they are
   * @param windowHours length of the lowest flow
   * @param into receives the figures
   */
  static void of(double[] flow, DayHours hours, int from, int to, int windowHours, double[] into) {
    double sum = 0;
    double work = 0;
    double edges = 0;
    int edgeHours = 0;
    for (int h = from; h < to; h++) {
      sum += flow[h];
      if (hours.work(h)) {
        work += flow[h];
      }
      if (hours.edge(h)) {
        edges += flow[h];
        edgeHours++;
      }
    }
    Arrays.fill(into, Double.NaN);
    if (!(sum > 0)) {
      return;
    }
    into[WORK] = work / sum;
    if (edgeHours >= 2 && edgeHours < (to - from) / 2) {
      into[EDGES] = edges / sum;
    }
    into[FLOOR] = floor(flow, hours, from, to, windowHours) * (to - from) / sum;
  }

  /** Median over the days, noon to noon, of the lowest mean flow of so many hours. */
  private static double floor(double[] flow, DayHours hours, int from, int to, int windowHours) {
    int first = hours.noonFrom(from);
    int days = (to - first) / HOURS_OF_A_DAY;
    if (days < 2) {
      return Double.NaN;
    }
    double[] lowest = new double[days];
    for (int d = 0; d < days; d++) {
      int begin = first + d * HOURS_OF_A_DAY;
      double window = 0;
      double least = Double.POSITIVE_INFINITY;
      for (int h = begin; h < begin + HOURS_OF_A_DAY; h++) {
        window += flow[h];
        if (h >= begin + windowHours) {
          window -= flow[h - windowHours];
        }
        if (h >= begin + windowHours - 1) {
          least = Math.min(least, window);
        }
      }
      lowest[d] = Math.max(0, least) / windowHours;
    }
    Arrays.sort(lowest);
    return days % 2 == 1 ? lowest[days / 2] : 0.5 * (lowest[days / 2 - 1] + lowest[days / 2]);
  }
}
