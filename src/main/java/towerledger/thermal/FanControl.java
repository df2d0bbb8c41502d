package towerledger.thermal;

/** How the fans hold the cold-water set-point. */
public enum FanControl {
  /** On or off: the air alternates between all and what drifts through by itself. */
  SINGLE_SPEED,
  /** Off, half speed or full speed. */
  TWO_SPEED,
  /** Any speed between the least and the greatest. */
  VARIABLE_SPEED
}
