package towerledger.balance.facts;

/**
 * Volumes by the interval, in order of time and without overlap; gaps are simply missing. The
 * arrays are kept, not copied, and must not be changed afterwards.
 */
public final class IntervalVolumes {

  private final long[] startEpochSecond;
  private final int[] minutes;
  private final float[] litres;

  /**
   * Volumes of one meter.
   *
   * @param startEpochSecond begin of each interval, ascending
   * @param minutes length of each interval, at least 1
   * @param litres volume of each interval, not negative
   */
  public IntervalVolumes(long[] startEpochSecond, int[] minutes, float[] litres) {
    if (minutes.length != startEpochSecond.length || litres.length != startEpochSecond.length) {
      throw new IllegalArgumentException(
          "interval columns differ in length: %d starts, %d lengths, %d volumes"
              .formatted(startEpochSecond.length, minutes.length, litres.length));
    }
    for (int i = 0; i < litres.length; i++) {
      if (minutes[i] < 1 || !(litres[i] >= 0)) {
        throw new IllegalArgumentException(
            "interval %d has %d minutes and %s L; it needs at least 1 minute and 0 L"
                .formatted(i, minutes[i], litres[i]));
      }
      if (i > 0 && startEpochSecond[i] < startEpochSecond[i - 1] + 60L * minutes[i - 1]) {
        throw new IllegalArgumentException(
            "interval %d begins before the one before it has ended; sort and drop overlaps"
                .formatted(i));
      }
    }
    this.startEpochSecond = startEpochSecond;
    this.minutes = minutes;
    this.litres = litres;
  }

  /** No interval data. */
  public static IntervalVolumes none() {
    return new IntervalVolumes(new long[0], new int[0], new float[0]);
  }

  public int size() {
    return litres.length;
  }

  /** Begin of interval i, seconds since 1970 UTC. */
  public long startEpochSecond(int i) {
    return startEpochSecond[i];
  }

  /** Length of interval i in minutes. */
  public int minutes(int i) {
    return minutes[i];
  }

  /** Volume of interval i in litres. */
  public double litres(int i) {
    return litres[i];
  }
}
