package towerledger.account;

/** What taking a row did to the thing it names. */
public enum Outcome {
  ADDED,
  CHANGED,
  UNCHANGED
}
