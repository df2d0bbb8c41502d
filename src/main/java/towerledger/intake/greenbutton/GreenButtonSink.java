package towerledger.intake.greenbutton;

/** Takes what a feed tells, reading by reading, so that no feed need fit into memory. */
public interface GreenButtonSink {

  /** An interval of water. */
  void interval(long line, GreenButtonInterval interval);

  /**
   * A reading that cannot be taken.
   *
   * @param line line of the feed on which it ends
   * @param raw the reading in short
   * @param reason what is wrong and how to mend it
   */
  void refused(long line, String raw, String reason);
}
