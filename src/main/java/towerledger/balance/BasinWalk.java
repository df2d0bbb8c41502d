package towerledger.balance;

import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.OperatingSettings.BlowdownControl;

/**
 * The basin's water and dissolved solids walked through time under one hypothesis. Running totals
 * are scratch, overwritten by the next walk.
 *
 * <p>Balances over a block: makeup = evaporation + drift + bleed + loss + refill; solids S·c′ = S·c
 * + makeup·c_m − (drift + bleed + loss)·c′, taken at the end of the block so that a small basin
 * stays stable.
 */
final class BasinWalk {

  private static final double TIMER_MEMORY_BLOCKS = 240;

  private final QuarterDays blocks;
  private final ControlPlan plan;
  private final double referencePerHourL;
  private final double[] lossL;

  /** Evaporation that a timer bleeds for in each block, L; below 0 where it hardly ever runs. */
  private final double[] timedL;

  /** One over the sound aim of each block. */
  private final double[] perSoundAim;

  /** Evaporation by the hour with a stand-in where it is not known, L. */
  private final double[] usedL;

  private Signature.@Nullable Flow walked;

  /** The aims of the sound system: most causes leave them alone. */
  private final Aims soundAims;

  /** The aims walked last. */
  private Aims aims;

  /** Room for the aims of causes that move them, overwritten by the next such cause. */
  private final Aims movedAims;

  /**
   * What follows from the aim of the bleed alone, whatever else is wrong.
   *
   * @param usCm aim in each block
   * @param perLift one over the aim's lift above the makeup
   */
  private record Aims(double[] usCm, double[] perLift) {

    Aims(int blocks) {
      this(new double[blocks], new double[blocks]);
    }
  }

  /** Running total of makeup that reaches or is lost before the basin, L. */
  final double[] makeup;

  /** Running total of bleed, L. */
  final double[] bleed;

  /** Running total of the derivative of makeup by the log of the aim, L. */
  final double[] slope;

  /** Basin concentration over the sound aim. */
  final double[] concentration;

  /** Whether the aim held the concentration in the block: 1 or 0. */
  final double[] held;

  /** Running total of lost water, fresh or concentrated, L. */
  final double[] loss;

  /** Makeup drawn in each block, L. */
  private final double[] drawnL;

  /** The same of a sound system; empty until it has been walked. */
  private double[] soundDrawnL = new double[0];

  BasinWalk(QuarterDays blocks, SystemHours hours, ControlPlan plan, double referencePerHourL) {
    this.blocks = blocks;
    this.plan = plan;
    this.referencePerHourL = referencePerHourL;
    int n = blocks.count;
    lossL = new double[n];
    timedL = timed(blocks, referencePerHourL);
    usedL = used(blocks, hours);
    perSoundAim = new double[n];
    for (int b = 0; b < n; b++) {
      perSoundAim[b] = 1 / plan.aimUsCm()[b];
    }
    makeup = new double[n + 1];
    bleed = new double[n + 1];
    slope = new double[n + 1];
    loss = new double[n + 1];
    concentration = new double[n];
    held = new double[n];
    drawnL = new double[n];
    soundAims = new Aims(n);
    movedAims = new Aims(n);
    aim(1, soundAims);
    aims = soundAims;
  }

  /** Works out what follows from an aim that is a multiple of the sound one. */
  private void aim(double factor, Aims into) {
    for (int b = 0; b < blocks.count; b++) {
      into.usCm()[b] = plan.aimUsCm(b, factor);
      into.perLift()[b] = plan.perLift(b, factor);
    }
  }

  private static double[] timed(QuarterDays blocks, double referencePerHourL) {
    double[] timed = new double[blocks.count];
    double[] runHours = blocks.runHours;
    double meanEvaporation = referencePerHourL * QuarterDays.HOURS;
    double meanRun = QuarterDays.HOURS;
    for (int b = 0; b < timed.length; b++) {
      meanEvaporation += (blocks.evaporationL[b] - meanEvaporation) / TIMER_MEMORY_BLOCKS;
      meanRun += (runHours[b] - meanRun) / TIMER_MEMORY_BLOCKS;
      timed[b] = meanRun > 0.05 ? meanEvaporation * runHours[b] / meanRun : -1;
    }
    return timed;
  }

  private static double[] used(QuarterDays blocks, SystemHours hours) {
    double[] used = hours.evaporationL().clone();
    for (int h = 0; h < used.length; h++) {
      if (Double.isNaN(used[h])) {
        used[h] = blocks.evaporationL[h / QuarterDays.HOURS] / QuarterDays.HOURS;
      }
    }
    return used;
  }

  /** Walks through all blocks as if the cause had always been there. */
  void walk(Signature signature) {
    if (signature.flow().equals(walked)) {
      return;
    }
    walk(signature, -1, 0, timedL);
    walked = signature.flow();
    if (walked.equals(Signature.sound().flow())) {
      soundDrawnL = drawnL.clone();
    }
  }

  /**
   * Whether a cause leaves the basin as it is in a sound system: fresh water is lost, and no bleed
   * follows the makeup meter that counts it.
   */
  boolean sparesBasin(Signature signature) {
    return signature.fresh()
        && signature.aimFactor() == 1
        && soundDrawnL.length > 0
        && !plan.bleedsByMakeup();
  }

  /**
   * Makeup and loss under a cause that {@linkplain #sparesBasin spares the basin}; of what else is
   * held here nothing is touched, as it is what the sound system has.
   */
  void walkFresh(Signature signature) {
    walked = null;
    losses(signature);
    double makeupSum = 0;
    double lossSum = 0;
    for (int b = 0; b < soundDrawnL.length; b++) {
      makeupSum += soundDrawnL[b] + lossL[b];
      lossSum += lossL[b];
      makeup[b + 1] = makeupSum;
      loss[b + 1] = lossSum;
    }
  }

  /**
   * A sound system whose clock bleeds the same day and night, whatever the load, and whether the
   * tower runs or not.
   *
   * @param perHourL evaporation that it is set for, L/h
   */
  void walkByClock(double perHourL) {
    double[] clock = new double[blocks.count];
    java.util.Arrays.fill(clock, perHourL * QuarterDays.HOURS);
    walk(Signature.sound(), -1, 0, clock);
  }

  /**
   * The same with a basin that was drained and filled again without anybody noting it.
   *
   * @param refillBlock block in which it was; -1 for never
   * @param refillL how much of it, L
   */
  void walk(Signature signature, int refillBlock, double refillL) {
    walk(signature, refillBlock, refillL, timedL);
  }

  private void walk(Signature signature, int refillBlock, double refillL, double[] timed) {
    walked = null;
    boolean stuckBleed = signature.shape() == Signature.Shape.BLEED_RUNNING;
    boolean fresh = signature.fresh();
    if (signature.aimFactor() == 1) {
      aims = soundAims;
    } else {
      aim(signature.aimFactor(), movedAims);
      aims = movedAims;
    }
    losses(signature);
    int n = blocks.count;
    double volume = plan.volumeL();
    double conc = n == 0 ? 0 : plan.aimUsCm()[0] * signature.aimFactor();
    // What the loop touches stands in variables of its own, so that it need not be read anew.
    double[] freshUsCm = plan.freshUsCm();
    double[] perSoundAims = perSoundAim;
    double[] aimUsCm = aims.usCm();
    double[] perLifts = aims.perLift();
    double[] drainedL = plan.drainedL();
    BlowdownControl[] controls = plan.control();
    double[] runHours = blocks.runHours;
    double[] loadHours = blocks.loadHours;
    double[] evaporationL = blocks.evaporationL;
    double[] lossOf = lossL;
    double[] drawnOf = drawnL;
    double[] makeupTo = makeup;
    double[] bleedTo = bleed;
    double[] slopeTo = slope;
    double[] lossTo = loss;
    double[] concentrationOf = concentration;
    double[] heldOf = held;
    double driftPerLoadHourL = plan.driftPerLoadHourL();
    double makeupSum = 0;
    double bleedSum = 0;
    double slopeSum = 0;
    double lossSum = 0;
    double freshBefore = 0;
    for (int b = 0; b < n; b++) {
      double cm = freshUsCm[b];
      if (freshBefore == 1 && cm != 1) {
        // The first sample of the makeup gives the ratios a unit.
        conc *= cm;
      }
      freshBefore = cm;
      double aim = aimUsCm[b];
      double evaporation = evaporationL[b];
      double perLift = perLifts[b];
      double drift = driftPerLoadHourL * loadHours[b];
      double lost = lossOf[b];
      double basinLoss = fresh ? 0 : lost;
      double refill = drainedL[b] + (b == refillBlock ? refillL : 0);
      if (refill > 0) {
        double part = Math.min(1, refill / volume);
        conc = conc * (1 - part) + cm * part;
      }
      double out = drift + basinLoss;
      double in = evaporation + out;
      double solids = volume * conc + in * cm;
      double water = volume + out;
      double bled = 0;
      double holds = 0;
      BlowdownControl control = controls[b];
      if (control == BlowdownControl.CONDUCTIVITY) {
        if (runHours[b] > 0 && solids > aim * water) {
          bled = (solids - aim * water) * perLift;
          conc = aim;
          holds = 1;
        } else {
          conc = solids / water;
        }
      } else {
        if (control == BlowdownControl.MAKEUP_PROPORTIONAL) {
          double upstream = fresh ? lost : 0;
          bled = (in + upstream) * cm * perLift;
          holds = 1;
        } else if (timed[b] >= 0) {
          bled = timed[b] * cm * perLift;
          holds = 1;
        }
        conc = (solids + bled * cm) / (water + bled);
      }
      // A bleed stuck open lets the controller shut its own valve; what counts is the larger.
      double allBleed = stuckBleed ? bled + basinLoss : bled;
      double drawn = in + bled + refill + (fresh ? lost : 0);
      makeupSum += drawn;
      bleedSum += allBleed;
      slopeSum -= bled > 0 ? (bled + out) * aim * perLift : 0;
      lossSum += lost;
      drawnOf[b] = drawn;
      makeupTo[b + 1] = makeupSum;
      bleedTo[b + 1] = bleedSum;
      slopeTo[b + 1] = slopeSum;
      lossTo[b + 1] = lossSum;
      concentrationOf[b] = conc * perSoundAims[b];
      heldOf[b] = holds;
    }
  }

  private void losses(Signature signature) {
    double rate = signature.size() * referencePerHourL;
    switch (signature.shape()) {
      case NOWHERE -> java.util.Arrays.fill(lossL, 0);
      case BASIN_ALWAYS, FRESH_ALWAYS -> java.util.Arrays.fill(lossL, rate * QuarterDays.HOURS);
      case BASIN_RUNNING, BLEED_RUNNING -> scaled(blocks.runHours, rate);
      case BASIN_LOAD -> scaled(blocks.loadHours, 2 * rate);
      case BASIN_STOPS -> scaled(blocks.stops, 24 * rate);
      case FRESH_WORKING -> scaled(blocks.workHours, 3.4 * rate);
      case FILL_PASSING -> overflow(rate);
    }
  }

  private void scaled(double[] column, double factor) {
    for (int b = 0; b < lossL.length; b++) {
      lossL[b] = column[b] * factor;
    }
  }

  /**
   * Bleed that goes on whether the basin runs over or not, L/h: by a clock or by hand. A controller
   * shuts its own when the water thins.
   */
  private double clockedBleedPerHourL(int block) {
    BlowdownControl control = plan.control()[block];
    return control == BlowdownControl.CONDUCTIVITY || proportional(block) || timedL[block] < 0
        ? 0
        : timedL[block] * plan.freshUsCm()[block] * aims.perLift()[block] / QuarterDays.HOURS;
  }

  private boolean proportional(int block) {
    return plan.control()[block] == BlowdownControl.MAKEUP_PROPORTIONAL;
  }

  /** Inflow that neither evaporation nor bleed used, once the basin has filled to its overflow. */
  private void overflow(double ratePerHour) {
    double freeboard = 0.06 * plan.volumeL();
    double[] used = usedL;
    double level = 0;
    int h = 0;
    for (int b = 0; b < lossL.length; b++) {
      double over = 0;
      double bled = clockedBleedPerHourL(b);
      double perUsed = proportional(b) ? aims.usCm()[b] * aims.perLift()[b] : 1;
      for (int i = 0; i < QuarterDays.HOURS; i++, h++) {
        double next = level + (ratePerHour - perUsed * used[h] - bled);
        if (next > freeboard) {
          over += next - freeboard;
          level = freeboard;
        } else {
          level = next > 0 ? next : 0;
        }
      }
      lossL[b] = over;
    }
  }
}
