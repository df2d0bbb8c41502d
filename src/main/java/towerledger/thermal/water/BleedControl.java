package towerledger.thermal.water;

/** How the bleed is controlled: it decides what a basin loss costs. */
public enum BleedControl {
  /**
   * By basin conductivity: the controller bleeds less by what is lost elsewhere. Nothing extra is
   * drawn until the loss exceeds the needed bleed; beyond, all of it is, and cycles fall. (In
   * steady state; a tower whose loss runs while no heat comes pays for some of a small loss too.)
   */
  CONDUCTIVITY,
  /** In proportion to makeup: the loss draws makeup, the makeup draws bleed, and so on. */
  MAKEUP_PROPORTIONAL,
  /** By timer: the bleed does not notice; the loss comes on top. */
  TIMER,
  /** By hand: as by timer, until somebody turns the valve. */
  MANUAL,
  /** No bleed at all: the loss comes on top, and holds the cycles down. */
  NONE;

  /**
   * What a steady basin loss does under this control.
   *
   * @param evaporation rate of evaporation, above zero
   * @param drift rate of drift
   * @param targetCycles cycles held, or set, before the loss; above 1
   * @param basinLoss rate of overflow or basin leak, not negative
   */
  public LossEffect effectOf(
      double evaporation, double drift, double targetCycles, double basinLoss) {
    double soundBleed =
        this == NONE ? 0 : Concentration.neededBlowdown(evaporation, targetCycles, drift);
    double sound = Math.max(soundBleed, 0);
    double bleed =
        switch (this) {
          case CONDUCTIVITY -> Math.max(sound - basinLoss, 0);
          case MAKEUP_PROPORTIONAL -> {
            double share = sound / (evaporation + drift + sound);
            yield share * (evaporation + drift + basinLoss) / (1 - share);
          }
          case TIMER, MANUAL, NONE -> sound;
        };
    double concentrated = drift + bleed + basinLoss;
    return new LossEffect(
        basinLoss,
        bleed + basinLoss - sound,
        sound - bleed,
        concentrated > 0
            ? Concentration.cycles(evaporation, concentrated)
            : Double.POSITIVE_INFINITY);
  }

  /**
   * What a basin loss does.
   *
   * @param grossLoss what runs away
   * @param extraWater makeup drawn on top of a sound tower's
   * @param displacedBleed bleed that is less than before; negative when it is more
   * @param cycles cycles that settle; infinite when nothing carries solids away
   */
  public record LossEffect(
      double grossLoss, double extraWater, double displacedBleed, double cycles) {}
}
