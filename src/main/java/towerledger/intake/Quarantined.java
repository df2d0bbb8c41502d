package towerledger.intake;

/**
 * A row that cannot be taken.
 *
 * @param line its line in the file
 * @param raw its text as it came
 * @param reason why, in words that say how to mend it
 */
record Quarantined(long line, String raw, String reason) {

  private static final int LONGEST_REASON = 2000;

  Quarantined {
    raw = raw.replace('\0', '\u2400');
    reason = reason.length() > LONGEST_REASON ? reason.substring(0, LONGEST_REASON) : reason;
    reason = reason.replace('\0', '\u2400');
  }
}
