package towerledger.thermal;

/** How a tower brings water and air together. */
public enum TowerKind {
  /** The cooling water itself falls through the air. */
  OPEN,
  /** The fluid stays in a coil that is sprayed with basin water. */
  CLOSED_CIRCUIT,
  /** A refrigerant condenses in a coil that is sprayed with basin water. */
  EVAPORATIVE_CONDENSER,
  /** A closed circuit that runs dry in cool weather. */
  HYBRID
}
