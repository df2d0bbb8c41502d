package towerledger.balance.facts;

import java.time.DayOfWeek;
import java.time.LocalTime;
import java.time.Month;
import java.util.Collections;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;

/**
 * What the owner told about a system that does not change with the settings.
 *
 * @param kind kind of heat rejection
 * @param volumeLitres water held by the whole loop, if known; above 0
 * @param heatSource what makes the heat, if known
 * @param watersideEconomizer whether the tower may carry load while the chiller stands
 * @param buildingUse what the building is used for, if known
 * @param occupiedFrom begin of the occupied hours, local time, if known
 * @param occupiedTo end of the occupied hours, local time; before the begin means after midnight
 * @param occupiedDays days of occupation; empty means not known
 * @param idleMonths calendar months in which the tower stands; may be empty
 */
public record SystemAttributes(
    Kind kind,
    OptionalDouble volumeLitres,
    Optional<HeatSource> heatSource,
    boolean watersideEconomizer,
    Optional<BuildingUse> buildingUse,
    Optional<LocalTime> occupiedFrom,
    Optional<LocalTime> occupiedTo,
    Set<DayOfWeek> occupiedDays,
    Set<Month> idleMonths) {

  /** Kind of heat rejection. */
  public enum Kind {
    OPEN,
    CLOSED_CIRCUIT,
    EVAPORATIVE_CONDENSER,
    HYBRID
  }

  /** What makes the heat. */
  public enum HeatSource {
    ELECTRIC_CHILLER,
    ABSORPTION_CHILLER,
    PROCESS,
    HEAT_PUMP_LOOP,
    REFRIGERATION,
    OTHER
  }

  /** What the building is used for. */
  public enum BuildingUse {
    OFFICE,
    HOSPITAL,
    HOTEL,
    SCHOOL,
    LABORATORY,
    RETAIL,
    DATA_CENTER,
    INDUSTRIAL,
    OTHER
  }

  public SystemAttributes {
    Plausible.positive("system volume", volumeLitres, "L");
    // In their own order in every run: the digest of a month is made of this text.
    occupiedDays = Collections.unmodifiableSet(new TreeSet<>(occupiedDays));
    idleMonths = Collections.unmodifiableSet(new TreeSet<>(idleMonths));
  }

  /** An open tower about which nothing else is known. */
  public static SystemAttributes openTower() {
    return new SystemAttributes(
        Kind.OPEN,
        OptionalDouble.empty(),
        Optional.empty(),
        false,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Set.of(),
        Set.of());
  }
}
