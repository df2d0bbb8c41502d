package towerledger.site;

import jakarta.persistence.Embeddable;
import java.time.LocalTime;
import org.jspecify.annotations.Nullable;

/**
 * What is known of a system: one cooling-water loop with one makeup balance. Null means not known.
 *
 * @param name what people call it
 * @param kind how it gives its heat to the air; open unless said
 * @param systemVolumeL litres in the whole loop, positive
 * @param heatSource where the heat comes from
 * @param watersideEconomizer whether the tower cools the building directly in the cold season
 * @param buildingUse what the building is used for
 * @param occupiedFrom local time the building fills
 * @param occupiedTo local time it empties; before {@code occupiedFrom} when past midnight
 * @param occupiedDays days of the week, for instance {@code Mon-Fri}
 * @param idleMonths months without load, for instance {@code 12-2}
 */
@Embeddable
public record SystemDetails(
    String name,
    @Nullable SystemKind kind,
    @Nullable Double systemVolumeL,
    @Nullable HeatSource heatSource,
    @Nullable Boolean watersideEconomizer,
    @Nullable BuildingUse buildingUse,
    @Nullable LocalTime occupiedFrom,
    @Nullable LocalTime occupiedTo,
    @Nullable String occupiedDays,
    @Nullable String idleMonths) {

  /** A system of which only the name is known. */
  public static SystemDetails named(String name) {
    return new SystemDetails(name, null, null, null, null, null, null, null, null, null);
  }

  /** This under another name. */
  public SystemDetails withName(String other) {
    return new SystemDetails(
        other,
        kind,
        systemVolumeL,
        heatSource,
        watersideEconomizer,
        buildingUse,
        occupiedFrom,
        occupiedTo,
        occupiedDays,
        idleMonths);
  }

  /** The kind, open unless said. */
  public SystemKind kindOrOpen() {
    return kind == null ? SystemKind.OPEN : kind;
  }

  /** This with every known value of a newer row put over it; not known never wipes out known. */
  public SystemDetails updatedBy(SystemDetails newer) {
    return new SystemDetails(
        newer.name,
        Known.or(newer.kind, kind),
        Known.or(newer.systemVolumeL, systemVolumeL),
        Known.or(newer.heatSource, heatSource),
        Known.or(newer.watersideEconomizer, watersideEconomizer),
        Known.or(newer.buildingUse, buildingUse),
        Known.or(newer.occupiedFrom, occupiedFrom),
        Known.or(newer.occupiedTo, occupiedTo),
        Known.or(newer.occupiedDays, occupiedDays),
        Known.or(newer.idleMonths, idleMonths));
  }
}
