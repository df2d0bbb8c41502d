package towerledger.report;

/** Something about a report that cannot be done, in words for whoever asked. */
public final class ReportException extends RuntimeException {

  private static final long serialVersionUID = 1;

  public ReportException(String message) {
    super(message);
  }
}
