package towerledger.account;

/**
 * How much of its owner's power an API token carries. A person signed in by form has {@link #ALL}.
 */
public enum TokenScope {
  /** Look only. */
  READ,
  /** Look, and hand in readings, samples, loads and visits. */
  WRITE_READINGS,
  /** All that its owner may do. */
  ALL
}
