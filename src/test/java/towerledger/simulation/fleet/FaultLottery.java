package towerledger.simulation.fleet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import towerledger.simulation.Chance;
import towerledger.simulation.Fault;
import towerledger.simulation.Operation;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantedCause;
import towerledger.simulation.WaterRun;

/** Draws a fault that fits a plant and scales it to the extra water it is meant to draw. */
final class FaultLottery {

  private static final int HOURS_A_MONTH = 730;

  private final PlantSpec spec;
  private final Operation operation;
  private final WaterRun twin;
  private final boolean bleedMeter;
  private final Chance chance;

  FaultLottery(
      PlantSpec spec, Operation operation, WaterRun twin, boolean bleedMeter, Chance chance) {
    this.spec = spec;
    this.operation = operation;
    this.twin = twin;
    this.bleedMeter = bleedMeter;
    this.chance = chance;
  }

  /**
   * One fault, or empty where none could be fitted.
   *
   * @param firstHour first hour of the record
   * @param lastHour end of the record
   */
  Optional<Fault> draw(int firstHour, int lastHour) {
    PlantedCause cause = chance.pick(candidates());
    int from =
        chance.happens(0.2)
            ? 0
            : chance.wholeBetween(firstHour + 3 * HOURS_A_MONTH, lastHour - 2 * HOURS_A_MONTH);
    int to =
        chance.happens(0.6)
            ? Integer.MAX_VALUE
            : Math.max(from, firstHour) + chance.wholeBetween(45, 200) * 24;
    double share = targetShare();
    return switch (cause) {
      case FILL_VALVE_STUCK_OPEN -> {
        int start = runningHour(Math.max(from, firstHour + HOURS_A_MONTH));
        yield Optional.of(
            new Fault(
                cause, start, start + chance.wholeBetween(36, 20 * 24), chance.between(0.3, 1)));
      }
      case FILL_VALVE_SHUT -> {
        int start = runningHour(Math.max(from, firstHour + HOURS_A_MONTH));
        yield Optional.of(new Fault(cause, start, start + chance.wholeBetween(72, 15 * 24), 1));
      }
      case MAKEUP_METER_ERROR, BLOWDOWN_METER_ERROR ->
          Optional.of(
              new Fault(
                  cause,
                  from,
                  to,
                  chance.happens(0.7) ? chance.between(0.5, 0.88) : chance.between(1.12, 1.4)));
      case HEAT_LOAD_ERROR ->
          Optional.of(
              new Fault(
                  cause,
                  from,
                  to,
                  chance.happens(0.5) ? chance.between(0.6, 0.82) : chance.between(1.2, 1.5)));
      case CONDUCTIVITY_ERROR ->
          Optional.of(
              new Fault(
                  cause,
                  from,
                  to,
                  chance.happens(0.6) ? chance.between(0.55, 0.8) : chance.between(1.25, 1.7)));
      case LOW_CYCLES -> scaled(cause, from, to, share, 0.25, 0.72);
      case DRIFT_EXCESS -> scaled(cause, from, to, share, 10, 0.004 / spec.rating().driftPart());
      default -> scaled(cause, from, to, share, meanDemand() * share, meanDemand() * 6);
    };
  }

  private double targetShare() {
    double luck = chance.between(0, 1);
    if (luck < 0.2) {
      return chance.between(0.05, 0.10);
    }
    if (luck < 0.5) {
      return chance.between(0.10, 0.20);
    }
    return luck < 0.8 ? chance.between(0.20, 0.40) : chance.between(0.40, 1.0);
  }

  private List<PlantedCause> candidates() {
    List<PlantedCause> causes =
        new ArrayList<>(
            List.of(
                PlantedCause.FILL_VALVE_LEAKING_BY,
                PlantedCause.FILL_VALVE_LEAKING_BY,
                PlantedCause.FILL_VALVE_STUCK_OPEN,
                PlantedCause.LEVEL_SET_HIGH,
                PlantedCause.LEVEL_SET_HIGH,
                PlantedCause.BLOWDOWN_STUCK_OPEN,
                PlantedCause.BLOWDOWN_STUCK_OPEN,
                PlantedCause.LOW_CYCLES,
                PlantedCause.LOW_CYCLES,
                PlantedCause.MAKEUP_LINE_LEAK,
                PlantedCause.MAKEUP_LINE_LEAK,
                PlantedCause.BASIN_LEAK,
                PlantedCause.DRIFT_EXCESS,
                PlantedCause.OTHER_USE,
                PlantedCause.MAKEUP_METER_ERROR,
                PlantedCause.HEAT_LOAD_ERROR,
                PlantedCause.FILL_VALVE_SHUT));
    if (stops() >= 100) {
      causes.add(PlantedCause.OVERFLOW_ON_SHUTDOWN);
      causes.add(PlantedCause.OVERFLOW_ON_SHUTDOWN);
    }
    if (spec.bleed().mode() == BleedMode.CONDUCTIVITY) {
      causes.add(PlantedCause.CONDUCTIVITY_ERROR);
    }
    if (bleedMeter) {
      causes.add(PlantedCause.BLOWDOWN_METER_ERROR);
    }
    return causes;
  }

  private int stops() {
    int stops = 0;
    for (int h = 1; h < operation.length(); h++) {
      if (operation.running(h - 1) && !operation.running(h)) {
        stops++;
      }
    }
    return stops;
  }

  private int runningHour(int notBefore) {
    int latest = operation.length() - 21 * 24;
    int start = Math.min(latest, Math.max(notBefore, 24));
    for (int h = start; h < latest; h++) {
      if (operation.running(h)) {
        return h;
      }
    }
    return start;
  }

  private double meanDemand() {
    double sum = 0;
    for (int h = 0; h < operation.length(); h++) {
      sum += twin.makeupL(h);
    }
    return sum / operation.length();
  }

  /** Scales the size by trial runs until the fault draws its share of the sound makeup. */
  private Optional<Fault> scaled(
      PlantedCause cause, int from, int to, double share, double firstGuess, double most) {
    double size = Math.min(firstGuess, most);
    if (cause == PlantedCause.OVERFLOW_ON_SHUTDOWN) {
      size = Math.min(meanDemand() * share * operation.length() / stops(), most);
    }
    double drawn = 0;
    for (int i = 0; i < 4; i++) {
      Fault fault = new Fault(cause, from, to, size);
      drawn = shareDrawn(fault);
      double ratio = share / Math.max(drawn, share / 4);
      if (Math.abs(ratio - 1) < 0.1) {
        break;
      }
      size = Math.min(most, size * ratio);
    }
    return drawn < 0.01 ? Optional.empty() : Optional.of(new Fault(cause, from, to, size));
  }

  private double shareDrawn(Fault fault) {
    WaterRun run = WaterRun.of(spec, operation, List.of(fault));
    double extra = 0;
    double sound = 0;
    int end = Math.min(fault.toHour(), operation.length());
    for (int h = fault.fromHour(); h < end; h++) {
      extra += run.makeupL(h) - twin.makeupL(h);
      sound += twin.makeupL(h);
    }
    return extra / sound;
  }
}
