package towerledger.simulation.fleet;

import java.time.LocalDate;
import java.time.ZoneId;
import towerledger.simulation.Climate;

/**
 * A fleet to be judged.
 *
 * @param name what the report calls it
 * @param climate where it stands
 * @param towers how many systems
 * @param faultyPart part of them that get a fault
 * @param seed of everything
 */
record FleetPlan(String name, Climate climate, int towers, double faultyPart, long seed) {

  static final LocalDate FROM = LocalDate.of(2025, 5, 1);
  static final LocalDate TO = LocalDate.of(2026, 11, 1);

  ZoneId zone() {
    return ZoneId.of(
        switch (climate) {
          case HOT_DRY -> "America/Phoenix";
          case HOT_HUMID, COLD -> "America/Chicago";
          case TEMPERATE -> "America/New_York";
        });
  }
}
