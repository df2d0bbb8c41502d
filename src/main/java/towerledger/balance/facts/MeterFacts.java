package towerledger.balance.facts;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A water meter and what it measured, multiplier and unit already applied: litres.
 *
 * @param meter code of the meter
 * @param role what it measures
 * @param type how it works, if known
 * @param accuracyFraction limit of error in normal flow as a fraction (0.015 for 1.5 %), if known
 * @param sizeMm nominal size, if known
 * @param removedAt when it was taken out; empty while it serves
 * @param source where the water comes from, if known
 * @param resolutionLitres smallest step of the register in litres, if known
 * @param registers volumes between consecutive readings
 * @param intervals volumes by the interval
 */
public record MeterFacts(
    String meter,
    Role role,
    Optional<Type> type,
    OptionalDouble accuracyFraction,
    OptionalDouble sizeMm,
    Optional<Instant> removedAt,
    Optional<Source> source,
    OptionalDouble resolutionLitres,
    List<RegisterVolume> registers,
    IntervalVolumes intervals) {

  /** What a meter measures. */
  public enum Role {
    /** Water into the system. */
    MAKEUP,
    /** Water bled to drain. */
    BLOWDOWN,
    /** Water that passed the makeup meter and never reached the basin. */
    OTHER_USE,
    /** The utility's meter for the sewer credit. */
    CREDIT,
    /** The site's water service. */
    SERVICE
  }

  /** How a meter works. */
  public enum Type {
    DISPLACEMENT,
    TURBINE,
    COMPOUND,
    MAGNETIC,
    ULTRASONIC
  }

  /** Where the water comes from. */
  public enum Source {
    CITY,
    WELL,
    RECLAIMED,
    RAIN,
    SOFTENED
  }

  public MeterFacts {
    Plausible.between("accuracy of meter " + meter, accuracyFraction, 0, 0.5, "of the volume");
    Plausible.positive("size of meter " + meter, sizeMm, "mm");
    Plausible.notNegative("resolution of meter " + meter, resolutionLitres, "L");
    registers =
        registers.stream()
            .sorted(Comparator.comparing((RegisterVolume r) -> r.span().startInclusive()))
            .toList();
  }
}
