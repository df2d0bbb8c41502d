package towerledger.balance;

/**
 * Days of the periods booked to a month: the same for all stories of a system. Only the last month
 * of even and the last of odd number are remembered. Mutable.
 */
final class BookedDays {

  private final int[] month = {Integer.MIN_VALUE, Integer.MIN_VALUE};
  private final double[] days = new double[2];

  /** Place of a month among what is remembered: 0 or 1. */
  static int slot(int month) {
    return month & 1;
  }

  /**
   * Books a period to a month.
   *
   * @return whether it is the first one of that month
   */
  boolean book(int toMonth, double length) {
    int slot = slot(toMonth);
    boolean first = month[slot] != toMonth;
    month[slot] = toMonth;
    days[slot] = first ? length : days[slot] + length;
    return first;
  }

  /** Days booked to a month, 0 where no period fell into it. */
  double of(int toMonth) {
    int slot = slot(toMonth);
    return month[slot] == toMonth ? days[slot] : 0;
  }
}
