package towerledger.meter;

import java.time.Instant;

/**
 * Something to know about what a meter measured, in words for whoever keeps the readings.
 *
 * @param kind what it is about
 * @param at the instant it concerns
 * @param words what was found, what was done about it and how to mend it
 */
public record Remark(Kind kind, Instant at, String words) {

  /** What a remark is about. */
  public enum Kind {
    /** The register passed its highest number and began again. */
    ROLLED_OVER,
    /** The register shows less than before; the volume is not told. */
    RAN_BACKWARDS,
    /** A reading or interval from before the meter was installed or after it was removed. */
    OUTSIDE_LIFE,
    /** An estimate between two real readings, no longer used. */
    ESTIMATE_REPLACED,
    /** A doubtful reading that contradicts its neighbours. */
    LEFT_OUT,
    /** A reading that differs from the register noted at installation or removal. */
    ENDS_DIFFER,
    /** A reading outside what the model expects; taken all the same. */
    NOT_EXPECTED,
    /** Interval volumes that overlap; which of them stand is said. */
    OVERLAP,
    /** Interval volumes and register readings of one meter disagree. */
    KINDS_DISAGREE,
    /** Water may have passed below the least flow that the meter counts rightly. */
    LOW_FLOW,
    /** A parent meter that is not there or cannot be the parent. */
    PARENT_UNKNOWN
  }
}
