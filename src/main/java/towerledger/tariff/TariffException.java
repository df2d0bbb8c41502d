package towerledger.tariff;

/** A bill that cannot be made, with what is missing and how to mend it. */
public final class TariffException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final String schedule;

  /**
   * @param schedule code of the schedule, or another name of the document the problem is in
   * @param message the thing, the value, the limit and the remedy
   */
  public TariffException(String schedule, String message) {
    super(message);
    this.schedule = schedule;
  }

  /** Code of the schedule, or another name of the document the problem is in. */
  public String schedule() {
    return schedule;
  }
}
