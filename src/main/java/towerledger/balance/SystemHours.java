package towerledger.balance;

/**
 * What the hourly model says of one system: hour i begins i hours after the start. The arrays are
 * handed over, not copied.
 *
 * @param startEpochSecond begin of the first hour, seconds since 1970 UTC
 * @param evaporationL water evaporated, L; NaN where weather is missing
 * @param load heat as a fraction of nominal; 0 while the system stands
 * @param grade ordinal of the {@link EvidenceGrade} of the hour's heat
 */
record SystemHours(long startEpochSecond, double[] evaporationL, double[] load, byte[] grade) {

  SystemHours {
    if (load.length != evaporationL.length || grade.length != evaporationL.length) {
      throw new IllegalArgumentException(
          "hourly columns differ in length: %d evaporations, %d loads, %d grades"
              .formatted(evaporationL.length, load.length, grade.length));
    }
  }

  int count() {
    return evaporationL.length;
  }
}
