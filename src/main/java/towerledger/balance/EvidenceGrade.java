package towerledger.balance;

/** How well the heat load of a month is known, best first. */
public enum EvidenceGrade {
  /** By the hour or day: metered heat, flow with temperatures, chilled-water ton-hours. */
  A,
  /** The same by the week or month, or chiller electricity with kW per ton at any step. */
  B,
  /** Running hours and average load. */
  C,
  /** Nameplate, weather and schedule only. */
  D
}
