package towerledger.ledger;

/**
 * A month that says something else now than it did.
 *
 * @param before the row that stood
 * @param after the row that stands
 */
public record Restatement(LedgerEntry before, LedgerEntry after) {}
