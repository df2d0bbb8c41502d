package towerledger.job;

/** Takes word of how far a job has come. */
@FunctionalInterface
public interface Progress {

  /**
   * Notes how far the work has come; cheap to call often.
   *
   * @param percent 0 to 100
   * @param message words for whoever waits
   */
  void report(int percent, String message);
}
