package towerledger.thermal;

/** What the fans are doing at an operating point. */
public enum ControlRegime {
  /** No heat: no water over the fill, no evaporation. */
  OFF,
  /** The air is throttled and the cold water is at its set-point. */
  SET_POINT_HELD,
  /** All the air there is, and the cold water still above its set-point. */
  FULL_AIR,
  /** The least air there is, and the cold water below its set-point. */
  LEAST_AIR,
  /** Less than the least air, to keep the basin from freezing. */
  FREEZE_PROTECTION,
  /** A hybrid tower running dry. */
  DRY,
  /** Not controlled: a measured state. */
  MEASURED
}
