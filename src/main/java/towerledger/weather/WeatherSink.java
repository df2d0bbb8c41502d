package towerledger.weather;

/** Takes what a weather file tells, line by line, so that no file need fit into memory. */
public interface WeatherSink {

  /** An hour that can be taken. */
  void hour(long line, WeatherRow row);

  /** A line that reports no temperature or no humidity: a gap, nothing to mend. */
  void missing(long line);

  /**
   * A line that cannot be taken.
   *
   * @param raw the line
   * @param reason what is wrong and how to mend it
   */
  void refused(long line, String raw, String reason);
}
