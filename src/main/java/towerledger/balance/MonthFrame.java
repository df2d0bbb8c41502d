package towerledger.balance;

import java.time.YearMonth;
import java.time.ZoneId;
import java.util.List;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;

/**
 * Calendar months of a record and where they lie on the grid of blocks.
 *
 * @param months consecutive months
 * @param bounds begin and end of each in blocks
 */
record MonthFrame(List<YearMonth> months, double[][] bounds) {

  static MonthFrame of(List<YearMonth> months, ZoneId zone, QuarterDays blocks) {
    double[][] bounds = new double[months.size()][];
    for (int m = 0; m < bounds.length; m++) {
      Span span = CalendarMonth.of(months.get(m), zone).span();
      bounds[m] =
          new double[] {
            blocks.position(span.startInclusive()), blocks.position(span.endExclusive())
          };
    }
    return new MonthFrame(List.copyOf(months), bounds);
  }

  double from(int month) {
    return bounds[month][0];
  }

  double to(int month) {
    return bounds[month][1];
  }

  /**
   * Block in which a month begins, or the nearest of the record.
   *
   * @param count number of blocks of the record, above 0
   */
  int firstBlock(int month, int count) {
    return Math.max(0, Math.min((int) from(month), count - 1));
  }

  /** Month that holds a position; −1 before the first, the number of months after the last. */
  int at(double position) {
    for (int m = 0; m < bounds.length; m++) {
      if (position < bounds[m][1]) {
        return position < bounds[m][0] ? -1 : m;
      }
    }
    return bounds.length;
  }
}
