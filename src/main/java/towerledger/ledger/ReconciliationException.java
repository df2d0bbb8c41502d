package towerledger.ledger;

/** Some sites could not be reckoned; their months stay marked and are tried again. */
public class ReconciliationException extends RuntimeException {

  private final int sites;

  ReconciliationException(int sites) {
    super(
        "%d sites could not be reckoned; their months stay marked and are tried with the next run, the log says why"
            .formatted(sites));
    this.sites = sites;
  }

  /** How many sites failed. */
  public int sites() {
    return sites;
  }
}
