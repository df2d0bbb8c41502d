package towerledger.balance;

import java.util.List;

/**
 * What a system shows whose basin was drained and filled again without anybody noting it: makeup
 * once, and water that is thinner until enough has evaporated. Walked through only where something
 * hints at it; each becomes a response of its own.
 */
final class Refills {

  /** Part of the loop that an unnoted drain takes: a basin, or all of it. */
  private static final double DRAINED_PART = 0.75;

  /** Difference of the concentration that no longer matters, as a fraction. */
  private static final double SETTLED = 0.03;

  private final BasinWalk walk;
  private final double[] soundConcentration;
  private final double volumeL;
  private final List<Period> periods;
  private final MonthFrame frame;
  private final List<Response> responses;

  /**
   * Refills of a system.
   *
   * @param walk through the system's basin; its scratch is overwritten
   * @param soundConcentration concentration by block of the sound system
   * @param responses receives the new ones
   */
  Refills(
      BasinWalk walk,
      double[] soundConcentration,
      double volumeL,
      List<Period> periods,
      MonthFrame frame,
      List<Response> responses) {
    this.walk = walk;
    this.soundConcentration = soundConcentration;
    this.volumeL = volumeL;
    this.periods = periods;
    this.frame = frame;
    this.responses = responses;
  }

  /** Number of the response of a drain in a block. */
  int at(int block) {
    double refillL = DRAINED_PART * volumeL;
    walk.walk(Signature.sound(), block, refillL);
    int settled = block;
    while (settled < soundConcentration.length
        && Math.abs(walk.concentration[settled] - soundConcentration[settled])
            > SETTLED * soundConcentration[settled]) {
      settled++;
    }
    responses.add(Response.ofRefill(walk, periods, frame, refillL, block, settled));
    return responses.size() - 1;
  }
}
