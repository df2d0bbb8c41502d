package towerledger.job;

/**
 * One kind of work that outlives a request. Runs on any node; a run that a killed node left behind
 * is begun again elsewhere, so it must bear being repeated.
 */
public interface JobWork {

  /** Name of the kind, for instance {@code reconciliation}; at most 40 characters. */
  String kind();

  /**
   * Does the work.
   *
   * @return words for whoever waits, for instance {@code 14 systems reckoned}
   */
  String run(Job job, Progress progress);
}
