package towerledger.ledger;

/**
 * News that months of a site were reckoned, whether or not a figure changed. Published inside the
 * transaction that writes them, after the last one.
 *
 * @param siteId the site
 */
public record MonthsReckoned(long siteId) {}
