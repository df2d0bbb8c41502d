package towerledger.balance;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one signature makes the instruments show, had it always been there: per period and per
 * month, at a load multiplier of one.
 */
final class Response {

  /** Part of its effect that a loss keeps at least when it is drawn out to a smaller size. */
  private static final double LEAST_GROWN = 0.3;

  final Signature signature;
  final double[] makeup;
  final double[] slope;
  final double[] bleed;
  final double[] sampleLog;
  final double[] held;

  /** Water lost through the fault in each period, fresh or concentrated, L. */
  final double[] lost;

  /** Makeup drawn in each month, L. */
  final double[] monthMakeup;

  /** Derivative of each month's makeup by the log of the basin's concentration, L. */
  final double[] monthSlope;

  /** Bleed of each month, L. */
  final double[] monthBleed;

  /** Water lost through the fault in each month, fresh or concentrated, L. */
  final double[] monthLoss;

  /** Water of the basin that was drained and filled again without a note, L; 0 elsewhere. */
  final double refillL;

  /** Block in which that was; -1 elsewhere. */
  final int refillBlock;

  /** First block in which the basin is again as concentrated as if it had not been drained. */
  final int settledBlock;

  private final boolean clock;

  /** Change with the size of the loss; null where there is none. */
  private @Nullable Growth growth;

  /**
   * How what is shown changes from one size of a loss to the next: a leak within what the bleed
   * would have drawn costs nothing, and beyond it all of what it grows by.
   *
   * @param log by what the loss itself grows in a step, ln
   */
  private record Growth(
      double log, double[] makeup, double[] bleed, double[] sampleLog, double[] monthMakeup) {

    static Growth of(int steps, Response smaller, Response larger) {
      return new Growth(
          Math.log(larger.signature.size() / smaller.signature.size()) / steps,
          perStep(steps, smaller.makeup, larger.makeup),
          perStep(steps, smaller.bleed, larger.bleed),
          perStep(steps, smaller.sampleLog, larger.sampleLog),
          perStep(steps, smaller.monthMakeup, larger.monthMakeup));
    }

    private static double[] perStep(int steps, double[] smaller, double[] larger) {
      double[] change = new double[smaller.length];
      for (int i = 0; i < change.length; i++) {
        change[i] = (larger[i] - smaller[i]) / steps;
      }
      return change;
    }
  }

  Response(Signature signature, BasinWalk walk, List<Period> periods, MonthFrame frame) {
    this(signature, walk, periods, frame, 0, -1, -1, false);
  }

  private Response(
      Signature signature,
      BasinWalk walk,
      List<Period> periods,
      MonthFrame frame,
      double refillL,
      int refillBlock,
      int settledBlock,
      boolean clock) {
    this.clock = clock;
    this.signature = signature;
    this.refillL = refillL;
    this.refillBlock = refillBlock;
    this.settledBlock = settledBlock;
    int n = periods.size();
    makeup = RunningTotals.byPeriod(walk.makeup, periods);
    slope = RunningTotals.byPeriod(walk.slope, periods);
    bleed = RunningTotals.byPeriod(walk.bleed, periods);
    lost = RunningTotals.byPeriod(walk.loss, periods);
    sampleLog = new double[n];
    held = new double[n];
    for (int p = 0; p < n; p++) {
      Period period = periods.get(p);
      double sum = 0;
      double holds = 0;
      for (int block : period.sampleBlocks()) {
        sum += Math.log(walk.concentration[block]);
        holds += heldAround(walk, block);
      }
      int samples = period.sampleBlocks().length;
      sampleLog[p] = samples == 0 ? 0 : sum / samples + Math.log(signature.sampleFactor());
      held[p] = samples == 0 ? 0 : holds / samples;
    }
    monthMakeup = RunningTotals.byMonth(walk.makeup, frame);
    monthSlope = RunningTotals.byMonth(walk.slope, frame);
    monthBleed = RunningTotals.byMonth(walk.bleed, frame);
    monthLoss = RunningTotals.byMonth(walk.loss, frame);
  }

  /** The same water under another signature; of what is held here the samples alone differ. */
  Response(Signature signature, Response alike, List<Period> periods) {
    this.signature = signature;
    clock = alike.clock;
    refillL = alike.refillL;
    refillBlock = alike.refillBlock;
    settledBlock = alike.settledBlock;
    makeup = alike.makeup;
    slope = alike.slope;
    bleed = alike.bleed;
    held = alike.held;
    lost = alike.lost;
    monthMakeup = alike.monthMakeup;
    monthSlope = alike.monthSlope;
    monthBleed = alike.monthBleed;
    monthLoss = alike.monthLoss;
    sampleLog = alike.sampleLog.clone();
    double change = Math.log(signature.sampleFactor()) - Math.log(alike.signature.sampleFactor());
    for (int p = 0; p < sampleLog.length; p++) {
      sampleLog[p] += periods.get(p).hasSamples() ? change : 0;
    }
  }

  /** Fresh water lost beside a basin that is as in the sound system; only the makeup tells. */
  private Response(
      Signature signature, Response sound, BasinWalk walk, List<Period> periods, MonthFrame frame) {
    this.signature = signature;
    clock = sound.clock;
    refillL = sound.refillL;
    refillBlock = sound.refillBlock;
    settledBlock = sound.settledBlock;
    slope = sound.slope;
    bleed = sound.bleed;
    sampleLog = sound.sampleLog;
    held = sound.held;
    monthSlope = sound.monthSlope;
    monthBleed = sound.monthBleed;
    makeup = RunningTotals.byPeriod(walk.makeup, periods);
    lost = RunningTotals.byPeriod(walk.loss, periods);
    monthMakeup = RunningTotals.byMonth(walk.makeup, frame);
    monthLoss = RunningTotals.byMonth(walk.loss, frame);
  }

  /**
   * What a cause shows that loses fresh water and spares the basin.
   *
   * @param walk holds its makeup and loss
   */
  static Response ofFresh(
      Signature signature, Response sound, BasinWalk walk, List<Period> periods, MonthFrame frame) {
    return new Response(signature, sound, walk, periods, frame);
  }

  /** What a sound system shows that was drained in a block and filled again. */
  static Response ofRefill(
      BasinWalk walk,
      List<Period> periods,
      MonthFrame frame,
      double refillL,
      int refillBlock,
      int settledBlock) {
    return new Response(
        Signature.sound(), walk, periods, frame, refillL, refillBlock, settledBlock, false);
  }

  /** What a sound system shows that whose clock bleeds the same whatever the load. */
  static Response ofClock(BasinWalk walk, List<Period> periods, MonthFrame frame) {
    return new Response(Signature.sound(), walk, periods, frame, 0, -1, -1, true);
  }

  /**
   * Learns from the same loss in the sizes next to it how it grows.
   *
   * @param before the one before it on the ladder, or another loss
   * @param after the one behind it, or another loss
   */
  void growBetween(Response before, Response after) {
    boolean grew = before.signature.growsInto(signature);
    boolean grows = signature.growsInto(after.signature);
    int steps = (grew ? 1 : 0) + (grows ? 1 : 0);
    if (steps > 0) {
      growth = Growth.of(steps, grew ? before : this, grows ? after : this);
    }
  }

  /** Factor on the loss itself at a size, in steps of its ladder. */
  double lossFactor(double size) {
    return growth == null ? 1 : Math.exp(size * growth.log);
  }

  /**
   * Effect of a loss of a size. Drawn out downwards, a part of it is left: that is what the next
   * smaller size is for.
   *
   * @param effectL effect of the size that the signature has, L
   * @param size how much larger it is than that, in steps of its ladder
   * @param bySizeL change of the effect with it, L
   */
  static double grown(double effectL, double size, double bySizeL) {
    return Math.max(LEAST_GROWN * effectL, effectL + size * bySizeL);
  }

  /** Change of a period's makeup with a step of the size of the loss, L. */
  double makeupBySize(int p) {
    return growth == null ? 0 : growth.makeup[p];
  }

  /** The same of the bleed, L. */
  double bleedBySize(int p) {
    return growth == null ? 0 : growth.bleed[p];
  }

  /** The same of the log of the samples. */
  double sampleLogBySize(int p) {
    return growth == null ? 0 : growth.sampleLog[p];
  }

  /** The same of a month's makeup, L. */
  double monthMakeupBySize(int month) {
    return growth == null ? 0 : growth.monthMakeup[month];
  }

  /** Whether it is a way of life in which a clock bleeds the same whatever the load. */
  boolean byClock() {
    return clock;
  }

  /**
   * Whether a story of it stands beside the sound one until the fault ends: neither a moved aim nor
   * a changed load, which may come to be how the system is, nor a drain, which is over in itself.
   */
  boolean lasting() {
    return refillL == 0 && !signature.sane() && signature.loadFactor() == 1;
  }

  private static double heldAround(BasinWalk walk, int block) {
    double sum = 0;
    int from = Math.max(0, block - 7);
    for (int b = from; b <= block; b++) {
      sum = Math.max(sum, walk.held[b]);
    }
    return sum;
  }
}
