package towerledger.balance;

import java.util.ArrayList;
import java.util.List;
import towerledger.balance.Signature.Shape;

/**
 * The hypotheses: each cause in several sizes. Sizes of losses are multiples of the reference
 * evaporation, in steps of three fifths; what lies between them each story learns (decision 0234).
 */
final class SignatureCatalogue {

  /**
   * Least size that matters on a tower of usual load, and the step to the next; a smaller one is
   * followed for towers that hardly run. All causes share one ladder: two that act alike must not
   * be told apart by whose size happens to fit.
   */
  private static final double LEAST = 0.03;

  private static final double STEP = 1.6;

  /** Largest usual size of a loss, in steps. */
  private static final int USUAL = 8;

  /**
   * Variance of a loss about the size of its story before anything was measured, in steps squared:
   * a little more than that of sizes spread evenly over a step, 1/12.
   */
  static final double SIZE_VARIANCE = 0.1;

  private static final double[] AIMS = {0.9, 0.82, 0.74, 0.65, 0.55, 0.45, 0.35};
  private static final double[] METER = {
    0.95, 0.91, 0.88, 0.84, 0.78, 0.7, 0.55, 1.06, 1.12, 1.2, 1.3, 1.42
  };
  private static final double[] METER_WEIGHT = {
    0.6, 1, 1.5, 1, 1, 0.8, 0.6, 0.5, 0.6, 0.6, 0.6, 0.4
  };
  private static final double[] LOADS = {
    0.55, 0.66, 0.75, 0.82, 0.88, 0.92, 1.08, 1.13, 1.2, 1.3, 1.45, 1.7, 2.1
  };

  /** Usual change of a load, ln: tenants come and go, evidence is misread. */
  private static final double LOAD_CHANGE = 0.28;

  private static final double[] PROBE = {0.55, 0.7, 0.8, 0.88, 1.12, 1.22, 1.35};

  /** Set-points that were moved and nobody told, and how often, per year; a judgement. */
  private static final double[] MOVED = {0.82, 0.9, 1.11, 1.22};

  private static final double[] MOVED_RATE = {0.005, 0.012, 0.03, 0.02};

  /** Part of the modelled load of a system that stands, or is kept at a minimum. */
  private static final double[] STOPPED = {0.03, 0.3};

  private SignatureCatalogue() {}

  static List<Signature> of(ReconciliationPolicy policy, boolean bleedMetered) {
    List<Signature> all = new ArrayList<>();
    all.add(Signature.sound());
    passing(all, policy.yearly(Cause.FILL_VALVE_LEAKING_BY));
    losses(all, policy, Cause.FILL_VALVE_STUCK_OPEN, Shape.FILL_PASSING, 9, 13);
    losses(all, policy, Cause.OVERFLOW_ON_SHUTDOWN, Shape.BASIN_STOPS, -1, USUAL);
    losses(all, policy, Cause.LEVEL_SET_HIGH, Shape.BASIN_RUNNING, -1, 9);
    losses(all, policy, Cause.BLOWDOWN_STUCK_OPEN, Shape.BLEED_RUNNING, 1, 9);
    losses(all, policy, Cause.MAKEUP_LINE_LEAK, Shape.FRESH_ALWAYS, -1, 9);
    losses(all, policy, Cause.BASIN_LEAK, Shape.BASIN_ALWAYS, -1, 9);
    // Torn eliminators: with the water that falls through them, or with the air that carries it.
    halved(all, policy, Cause.DRIFT_EXCESS, Shape.BASIN_LOAD, 1, USUAL);
    halved(all, policy, Cause.DRIFT_EXCESS, Shape.BASIN_RUNNING, 1, 9);
    losses(all, policy, Cause.OTHER_USE, Shape.FRESH_WORKING, -1, USUAL);
    double lowCycles = policy.yearly(Cause.LOW_CYCLES) / AIMS.length;
    for (double aim : AIMS) {
      all.add(Signature.aim(Cause.LOW_CYCLES, aim, 1, lowCycles));
    }
    double probe = policy.yearly(Cause.CONDUCTIVITY_ERROR) / PROBE.length / 3;
    for (double factor : PROBE) {
      all.add(Signature.aim(Cause.CONDUCTIVITY_ERROR, factor, 1, probe));
      all.add(Signature.aim(Cause.CONDUCTIVITY_ERROR, factor, 1 / factor, probe));
      all.add(Signature.aim(Cause.CONDUCTIVITY_ERROR, 1, factor, probe));
    }
    double meter = policy.yearly(Cause.MAKEUP_METER_ERROR) / 8;
    for (int i = 0; i < METER.length; i++) {
      all.add(Signature.makeupMeter(Cause.MAKEUP_METER_ERROR, METER[i], meter * METER_WEIGHT[i]));
    }
    double shut = policy.yearly(Cause.FILL_VALVE_SHUT) / 2;
    all.add(Signature.makeupMeter(Cause.FILL_VALVE_SHUT, 0.02, shut));
    all.add(Signature.makeupMeter(Cause.FILL_VALVE_SHUT, 0.2, shut));
    double sum = 0;
    for (double factor : LOADS) {
      sum += loadWeight(factor);
    }
    double load = policy.yearly(Cause.HEAT_LOAD_ERROR) / sum;
    for (double factor : LOADS) {
      all.add(Signature.load(Cause.HEAT_LOAD_ERROR, factor, load * loadWeight(factor)));
    }
    for (int i = 0; i < MOVED.length; i++) {
      all.add(Signature.aim(Cause.NONE, MOVED[i], 1, MOVED_RATE[i]));
    }
    for (double factor : STOPPED) {
      all.add(Signature.load(Cause.NONE, factor, 1.0 / STOPPED.length));
    }
    if (bleedMetered) {
      double bleed = policy.yearly(Cause.BLOWDOWN_METER_ERROR) / 6;
      for (double factor : new double[] {0.02, 0.5, 0.7, 0.85, 1.15, 1.3}) {
        all.add(Signature.bleedMeter(factor, bleed));
      }
    }
    return all;
  }

  /** Large changes of a load are rarer than small ones: normal in the logarithm. */
  private static double loadWeight(double factor) {
    double z = Math.log(factor) / LOAD_CHANGE;
    return Math.exp(-0.5 * z * z);
  }

  private static void halved(
      List<Signature> all,
      ReconciliationPolicy policy,
      Cause cause,
      Shape shape,
      int first,
      int last) {
    losses(all, 0.5 * policy.yearly(cause), cause, shape, first, last);
  }

  private static void losses(
      List<Signature> all,
      ReconciliationPolicy policy,
      Cause cause,
      Shape shape,
      int first,
      int last) {
    losses(all, policy.yearly(cause), cause, shape, first, last);
  }

  /**
   * A fill valve that leaks by, in half steps: only what exceeds the tower's own use is lost, so
   * that the loss grows by far more than the leak. Smaller leaks than the first cost nothing.
   */
  private static void passing(List<Signature> all, double yearly) {
    int first = 7;
    int last = 20;
    double prior = yearly / (last - first + 1);
    for (int i = first; i <= last; i++) {
      all.add(
          Signature.loss(
              Cause.FILL_VALVE_LEAKING_BY,
              Shape.FILL_PASSING,
              LEAST * Math.pow(STEP, 0.5 * i),
              prior));
    }
  }

  private static void losses(
      List<Signature> all, double yearly, Cause cause, Shape shape, int first, int last) {
    // What is too small to matter on a loaded tower, or unusually large, comes on top: it is not
    // one of those counted.
    int usual = first > USUAL ? last : Math.min(USUAL, last);
    double prior = yearly / (usual - Math.max(0, first) + 1);
    for (int i = first; i <= last; i++) {
      all.add(Signature.loss(cause, shape, LEAST * Math.pow(STEP, i), prior));
    }
  }
}
