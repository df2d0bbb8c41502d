package towerledger.thermal;

/** What happens to the cells of a tower when the load falls. */
public enum CellStaging {
  /** Water runs over every cell at any load. */
  EVERY_CELL,
  /** As many cells take water, each its design flow, as the load needs; the others stand idle. */
  CELLS_BY_LOAD
}
