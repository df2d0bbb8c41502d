package towerledger.simulation;

import java.util.List;
import towerledger.simulation.Nuisances.Drain;
import towerledger.simulation.Nuisances.SetpointChange;
import towerledger.simulation.PlantSpec.BleedMode;

/**
 * The water side of a plant by the hour: basin volume and dissolved solids, level and bleed
 * control, and what leaks. Litres; what is booked here balances to rounding.
 */
public final class WaterRun {

  private final PlantSpec spec;
  private final Operation operation;
  private final List<Fault> faults;

  /** Fresh water that passed the makeup meter in each hour. */
  private final double[] makeupL;

  private final double[] bleedL;
  private final double[] driftL;
  private final double[] overflowL;
  private final double[] freshLossL;
  private final double[] otherUseL;
  private final double[] drainedL;
  private final double[] hoseL;
  private final double[] basinL;
  private final double[] basinUsCm;

  private double volume;
  private double solids;
  private double timerRate;
  private int nextVisit;
  private int visitsSeen;
  private int nextDrain;
  private boolean hose;

  private WaterRun(PlantSpec spec, Operation operation, List<Fault> faults) {
    this.spec = spec;
    this.operation = operation;
    this.faults = List.copyOf(faults);
    int n = operation.length();
    makeupL = new double[n];
    bleedL = new double[n];
    driftL = new double[n];
    overflowL = new double[n];
    freshLossL = new double[n];
    otherUseL = new double[n];
    drainedL = new double[n];
    hoseL = new double[n];
    basinL = new double[n];
    basinUsCm = new double[n];
  }

  /** Runs the plant with faults; an empty list gives the sound twin. */
  public static WaterRun of(PlantSpec spec, Operation operation, List<Fault> faults) {
    WaterRun run = new WaterRun(spec, operation, faults);
    run.walk();
    return run;
  }

  private void walk() {
    volume = operation.laidUp(0) ? 0 : spec.basin().volumeL();
    solids = volume * spec.bleed().setpointUsCm() * 0.8;
    timerRate = meanEvaporationAhead(0) / (spec.bleed().targetCycles() - 1);
    for (int h = 0; h < makeupL.length; h++) {
      if (operation.laidUp(h)) {
        layUp(h);
      } else {
        step(h);
      }
      basinL[h] = volume;
      basinUsCm[h] = volume > 0 ? solids / volume : Double.NaN;
    }
  }

  private void layUp(int h) {
    while (nextVisit < operation.nuisances().visitHours().size()
        && operation.nuisances().visitHours().get(nextVisit) <= h) {
      nextVisit++;
    }
    drainedL[h] = volume;
    volume = 0;
    solids = 0;
    freshLossL[h] = leak(PlantedCause.MAKEUP_LINE_LEAK, h);
    makeupL[h] = freshLossL[h];
  }

  private void step(int h) {
    double psi = spec.water().inletPsi(operation.supplyPsi(h));
    double fresh = operation.makeupUsCm(h);
    boolean running = operation.running(h);
    retune(h);
    drain(h);

    // Out of the basin: vapour, drift, and what leaks from it.
    double before = concentration(fresh);
    double drift =
        running
            ? operation.airPart(h)
                * spec.rating().driftPart()
                * spec.rating().waterKgS()
                * 3600
                * multiple(PlantedCause.DRIFT_EXCESS, h)
            : 0;
    double lost = leak(PlantedCause.BASIN_LEAK, h);
    if (running) {
      lost += leak(PlantedCause.LEVEL_SET_HIGH, h);
    } else if (h > 0 && operation.running(h - 1)) {
      lost += leak(PlantedCause.OVERFLOW_ON_SHUTDOWN, h);
    }
    lost = Math.min(lost, volume * 0.5);
    volume -= operation.evaporationL(h) + drift + lost;
    solids -= (drift + lost) * before;
    driftL[h] = drift;
    overflowL[h] = lost;

    // Fresh water that never reaches the basin.
    double lineLeak = leak(PlantedCause.MAKEUP_LINE_LEAK, h);
    double other = usedElsewhere(h);
    freshLossL[h] = lineLeak;
    otherUseL[h] = other;

    double wideOpen = spec.fill().wideOpenLPerHour(psi);
    double filled = fill(h, wideOpen, psi, fresh);
    filled += bleed(h, running, fresh, wideOpen - filled, filled + lineLeak + other);
    makeupL[h] = filled + lineLeak + other;

    double most = spec.basin().volumeL() + spec.basin().freeboardL();
    if (volume > most) {
      double over = volume - most;
      solids -= over * concentration(fresh);
      volume = most;
      overflowL[h] += over;
    }
  }

  private double concentration(double whenEmpty) {
    return volume > 1 ? solids / volume : whenEmpty;
  }

  private double fill(int h, double wideOpen, double psi, double fresh) {
    double demand = Math.max(0, spec.basin().volumeL() - volume);
    double filled;
    if (acts(PlantedCause.FILL_VALVE_SHUT, h)) {
      filled = 0;
      fillByHose(h, fresh);
    } else if (acts(PlantedCause.FILL_VALVE_STUCK_OPEN, h)) {
      filled = wideOpen * Math.min(1, size(PlantedCause.FILL_VALVE_STUCK_OPEN, h));
    } else {
      double seep = leak(PlantedCause.FILL_VALVE_LEAKING_BY, h) * Math.sqrt(Math.max(0, psi) / 60);
      filled = Math.min(wideOpen, Math.max(demand, seep));
    }
    volume += filled;
    solids += filled * fresh;
    return filled;
  }

  /** Somebody puts a hose in a basin that runs low: water past no makeup meter. */
  private void fillByHose(int h, double fresh) {
    double full = spec.basin().volumeL();
    if (volume < 0.55 * full) {
      hose = true;
    } else if (volume >= full) {
      hose = false;
    }
    if (hose) {
      double water = Math.min(full - volume, 0.12 * full + operation.evaporationL(h) * 1.5);
      hoseL[h] = Math.max(0, water);
      volume += hoseL[h];
      solids += hoseL[h] * fresh;
    }
  }

  /** Bleeds and returns the fresh water that the level control put in its place. */
  private double bleed(int h, boolean running, double fresh, double spareFill, double metered) {
    if (!running) {
      return 0;
    }
    PlantSpec.Bleed control = spec.bleed();
    double aim = control.setpointUsCm() * changed(h) * (1 - size(PlantedCause.LOW_CYCLES, h));
    double now = concentration(fresh);
    double wanted;
    switch (control.mode()) {
      case CONDUCTIVITY -> {
        double trueAim = aim / multiple(PlantedCause.CONDUCTIVITY_ERROR, h);
        wanted = now > trueAim && trueAim > fresh ? volume * (now - trueAim) / (now - fresh) : 0;
      }
      case MAKEUP_PROPORTIONAL -> {
        double cycles = Math.max(1.2, aim / spec.water().conductivity());
        double shown = metered * multiple(PlantedCause.MAKEUP_METER_ERROR, h);
        // The bleed is itself made up and metered: B = k(M + B) with k = 1/C.
        wanted = shown / (cycles - 1);
      }
      default -> wanted = timerRate;
    }
    double out = Math.min(wanted, control.capacityLPerHour());
    out = Math.min(Math.max(out, leak(PlantedCause.BLOWDOWN_STUCK_OPEN, h)), 0.6 * volume);
    double made = acts(PlantedCause.FILL_VALVE_SHUT, h) ? 0 : Math.min(out, Math.max(0, spareFill));
    if (acts(PlantedCause.FILL_VALVE_STUCK_OPEN, h)) {
      made = 0;
    }
    bleedL[h] = out;
    volume += made - out;
    solids += made * fresh - out * now;
    return made;
  }

  /** Bleeds by clock or hand follow what the technician reads at a visit. */
  private void retune(int h) {
    List<Integer> visits = operation.nuisances().visitHours();
    while (nextVisit < visits.size() && visits.get(nextVisit) <= h) {
      nextVisit++;
      visitsSeen++;
      boolean byHand = spec.bleed().mode() == BleedMode.MANUAL;
      if (volume > 1 && (!byHand || visitsSeen % 2 == 0)) {
        double aim =
            spec.bleed().setpointUsCm() * changed(h) * (1 - size(PlantedCause.LOW_CYCLES, h));
        double ratio = solids / volume / aim;
        timerRate *= Math.max(0.65, Math.min(1.5, Math.pow(ratio, byHand ? 0.9 : 1.2)));
        timerRate = Math.max(timerRate, 1);
      }
    }
  }

  private void drain(int h) {
    List<Drain> drains = operation.nuisances().drains();
    while (nextDrain < drains.size() && drains.get(nextDrain).hour() <= h) {
      double out = drains.get(nextDrain).part() * volume;
      if (volume > 1) {
        drainedL[h] += out;
        solids -= out * solids / volume;
        volume -= out;
      }
      nextDrain++;
    }
  }

  private double usedElsewhere(int h) {
    double rate = leak(PlantedCause.OTHER_USE, h);
    int hour = operation.hours().hourOfDay(h);
    int day = operation.hours().dayOfWeek(h);
    // Somebody's hose, filter or wash-down: working hours of working days, three times the mean.
    return rate > 0 && day <= 6 && hour >= 7 && hour < 15 ? rate * 3.5 : 0;
  }

  private double changed(int h) {
    double factor = 1;
    for (SetpointChange change : operation.nuisances().setpointChanges()) {
      if (h >= change.hour()) {
        factor = change.factor();
      }
    }
    return factor;
  }

  private boolean acts(PlantedCause cause, int h) {
    for (Fault fault : faults) {
      if (fault.cause() == cause && fault.acts(h)) {
        return true;
      }
    }
    return false;
  }

  private double size(PlantedCause cause, int h) {
    for (Fault fault : faults) {
      if (fault.cause() == cause && fault.acts(h)) {
        return fault.size();
      }
    }
    return 0;
  }

  private double leak(PlantedCause cause, int h) {
    return size(cause, h);
  }

  private double multiple(PlantedCause cause, int h) {
    double size = size(cause, h);
    return size == 0 ? 1 : size;
  }

  private double meanEvaporationAhead(int from) {
    double sum = 0;
    int count = 0;
    for (int h = from; h < Math.min(from + 24 * 60, makeupL.length); h++) {
      if (operation.running(h)) {
        sum += operation.evaporationL(h);
        count++;
      }
    }
    return count == 0 ? 100 : sum / count;
  }

  public PlantSpec spec() {
    return spec;
  }

  public Operation operation() {
    return operation;
  }

  public List<Fault> faults() {
    return faults;
  }

  /** What the makeup pipe really carried in an hour, L. */
  public double makeupL(int h) {
    return makeupL[h];
  }

  public double bleedL(int h) {
    return bleedL[h];
  }

  public double driftL(int h) {
    return driftL[h];
  }

  /** Basin water lost other than by bleed, drift and draining. */
  public double overflowL(int h) {
    return overflowL[h];
  }

  public double freshLossL(int h) {
    return freshLossL[h];
  }

  public double otherUseL(int h) {
    return otherUseL[h];
  }

  public double drainedL(int h) {
    return drainedL[h];
  }

  /** Water brought past the makeup meter by hose. */
  public double hoseL(int h) {
    return hoseL[h];
  }

  public double basinL(int h) {
    return basinL[h];
  }

  /** True conductivity of the basin; NaN while it is empty. */
  public double basinUsCm(int h) {
    return basinUsCm[h];
  }

  /** What a register of the makeup pipe shows for an hour, fault of the meter included. */
  public double shownMakeupL(int h) {
    return makeupL[h] * multiple(PlantedCause.MAKEUP_METER_ERROR, h);
  }

  /** What a register of the bleed shows for an hour, fault of the meter included. */
  public double shownBleedL(int h) {
    return bleedL[h] * multiple(PlantedCause.BLOWDOWN_METER_ERROR, h);
  }

  /** What the controller's probe shows. */
  public double shownBasinUsCm(int h) {
    return basinUsCm[h] * multiple(PlantedCause.CONDUCTIVITY_ERROR, h);
  }

  /** Factor on the heat evidence of an hour. */
  public double heatFactor(int h) {
    return multiple(PlantedCause.HEAT_LOAD_ERROR, h);
  }
}
