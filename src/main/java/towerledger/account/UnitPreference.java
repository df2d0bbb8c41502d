package towerledger.account;

/** The units a person wants to read figures in. Stored figures do not depend on it. */
public enum UnitPreference {
  /** US customary: gallons, °F, psi. */
  US,
  /** International: litres, °C, kPa. */
  SI
}
