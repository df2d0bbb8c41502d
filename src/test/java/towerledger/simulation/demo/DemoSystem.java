package towerledger.simulation.demo;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.simulation.EvidencePlan;
import towerledger.simulation.Nuisances;
import towerledger.simulation.PlantSpec;

/** A system of the book with what its customer told, its plant and how it is watched. */
record DemoSystem(
    String code,
    String site,
    String name,
    boolean ownTower,
    PlantSpec plant,
    List<Tower> towers,
    Told told,
    EvidencePlan evidence,
    Nuisances nuisances,
    List<Dated> events,
    List<Change> changes) {

  /** Nameplate as the customer told it; null where nobody knows. */
  record Tower(
      String code,
      String name,
      int cells,
      String arrangement,
      double tons,
      boolean airFlowKnown,
      double fanHp,
      String fanControl,
      double basinGal,
      boolean heater,
      LocalDate startedOn) {}

  /** Attributes of the system as told. */
  record Told(
      String kind,
      String heatSource,
      @Nullable Boolean economizer,
      String use,
      @Nullable String occupiedFrom,
      @Nullable String occupiedTo,
      @Nullable String occupiedDays,
      @Nullable String idleMonths,
      @Nullable Double valveMaxPsi,
      @Nullable Boolean sensorOutside,
      boolean valveKnown) {}

  /** Something a technician did on a day, beside the routine. */
  record Dated(
      LocalDate day, List<String> events, @Nullable Double drainedPart, String seen, String done) {}

  /** A setting that somebody changed and wrote down. */
  record Change(LocalDate from, String setting, String value, String reason) {}
}
