package towerledger.balance;

/**
 * What a response makes the instruments show in one period, worked out once for all stories that
 * tell of it. Mutable: the next period overwrites it.
 */
final class Showing {

  /** How far the water that a drain takes may stray from what is assumed. */
  private static final double REFILL_LOOSE = 0.3;

  /** How far the water of a fault may stray from one period to the next, as a part of it. */
  private static final double FAULT_LOOSE = 0.07;

  /** How far a fault may stray from half of its effect where it begins or ends. */
  private static final double AT_TURN = 0.32;

  /** Makeup and bleed of the water itself at a load multiplier of one, L. */
  double makeupL;

  double bleedL;

  /** Mean log of the samples over the sound aim, and what of it is not the sound system's. */
  double sampleLog;

  double sampleChange;

  /** Part of the samples at which the aim holds the concentration, 0–1. */
  double held;

  /** What the meters show beyond a sound system, L. */
  double makeupEffectL;

  double bleedEffectL;

  /** Change of samples (ln), makeup and bleed (L) with a step of the size of the loss. */
  double sampleBySize;

  double makeupBySizeL;

  double bleedBySizeL;

  /** Change of makeup and bleed with the log of the basin's habit, L. */
  double slopeL;

  /** Factor on what the makeup meter shows. */
  double makeupFactor;

  /** What the meters show of a unit of base load, L. */
  double makeupPerBaseL;

  double bleedPerBaseL;

  /** What they show more where the load is even, L. */
  double makeupPerEvenL;

  double bleedPerEvenL;

  /** Bleed of a clock whatever the load, L; 0 where the bleed follows the load. */
  double clockedL;

  /** Makeup beyond a sound system's, as the water is and whatever the meter shows, L. */
  double addedMakeupL;

  double addedBleedL;

  /** Part of its effect by which it may stray, in the midst and where it begins or ends. */
  double loose;

  double looseAtTurn;

  /** Part by which what it adds may stray where a tower lives by it: only a drain's does. */
  double looseAsWay;

  boolean refill;
  boolean byClock;

  /** Log of how much likelier its cause became by what was seen; 0 where nothing is wrong. */
  double leaning;

  /** What the makeup meter shows of a loss of a size beyond a sound system, L. */
  double makeupEffectL(double size) {
    return Response.grown(makeupEffectL, size, makeupBySizeL);
  }

  /** Takes up what a response shows in a period beside the sound one. */
  void read(Response response, Response sound, LackedWater lacked, int p, Period period) {
    Signature signature = response.signature;
    double standing = signature.standing();
    makeupL = response.makeup[p];
    bleedL = response.bleed[p];
    sampleLog = response.sampleLog[p];
    sampleChange = sampleLog - sound.sampleLog[p];
    held = response.held[p];
    makeupEffectL = makeupL * signature.loadFactor() * signature.makeupFactor() - sound.makeup[p];
    bleedEffectL = bleedL * signature.loadFactor() * signature.bleedFactor() - sound.bleed[p];
    sampleBySize = response.sampleLogBySize(p);
    makeupBySizeL = response.makeupBySize(p);
    bleedBySizeL = response.bleedBySize(p);
    slopeL = response.slope[p];
    makeupFactor = signature.makeupFactor();
    makeupPerBaseL = lacked.baseMakeup()[p] * (makeupFactor * standing);
    bleedPerBaseL = lacked.baseBleed()[p] * (signature.bleedFactor() * standing);
    makeupPerEvenL = lacked.evenMakeup()[p] * (makeupFactor * standing);
    bleedPerEvenL = lacked.evenBleed()[p] * (signature.bleedFactor() * standing);
    addedMakeupL = makeupL - sound.makeup[p];
    addedBleedL = bleedL - sound.bleed[p];
    refill = response.refillL > 0;
    byClock = response.byClock();
    clockedL = byClock ? bleedL : 0;
    loose = refill ? REFILL_LOOSE : FAULT_LOOSE;
    looseAtTurn = refill ? REFILL_LOOSE : AT_TURN;
    looseAsWay = refill ? REFILL_LOOSE : 0;
    leaning = signature.sane() ? 0 : period.leanings()[signature.cause().ordinal()];
  }
}
