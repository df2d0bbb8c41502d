package towerledger.balance;

/**
 * What the hourly model says of one system: hour i begins i hours after the start. The arrays are
 * handed over, not copied.
 *
 * @param startEpochSecond begin of the first hour, seconds since 1970 UTC
 * @param evaporationL water evaporated, L; NaN where weather is missing
 * @param load heat as a fraction of nominal; 0 while the system stands
 * @param grade ordinal of the {@link EvidenceGrade} of the hour's heat
 * @param vague whether the tower may evaporate far less than modelled: a coil may run dry, or an
 *     economizer cool without the chiller where nothing meters the heat
 * @param even load if what was measured over some hours were the same in all of them that run; NaN
 *     where nothing was measured
 */
record SystemHours(
    long startEpochSecond,
    double[] evaporationL,
    double[] load,
    byte[] grade,
    boolean[] vague,
    double[] even) {

  SystemHours {
    if (load.length != evaporationL.length
        || grade.length != evaporationL.length
        || vague.length != load.length
        || even.length != load.length) {
      throw new IllegalArgumentException(
          "hourly columns differ in length: %d evaporations, %d loads, %d grades, %d even loads"
              .formatted(evaporationL.length, load.length, grade.length, even.length));
    }
  }

  int count() {
    return evaporationL.length;
  }

  /** Part of the hours in which the tower may have evaporated far less than modelled. */
  double vaguePart(double from, double to) {
    int first = (int) (from * QuarterDays.HOURS);
    int last = Math.min(count(), (int) (to * QuarterDays.HOURS));
    int count = 0;
    for (int h = first; h < last; h++) {
      count += vague[h] ? 1 : 0;
    }
    return last > first ? (double) count / (last - first) : 0;
  }
}
