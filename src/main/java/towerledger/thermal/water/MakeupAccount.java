package towerledger.thermal.water;

/**
 * Where the makeup of a period went. What stacks is an identity: makeup = evaporation + drift +
 * needed blowdown + excess loss + fresh loss + other use + storage change + meter correction +
 * residual. All in one unit; negative values point the other way.
 *
 * @param makeup as metered
 * @param evaporation modelled or reconciled
 * @param drift carried out as drops
 * @param neededBlowdown what target cycles need
 * @param excessLoss concentrated loss beyond that
 * @param freshLoss lost between meter and basin
 * @param otherUse taken after the meter for something else
 * @param storageChange more in the basin than before
 * @param meterCorrection metered less true makeup
 * @param residual what nothing explains
 */
public record MakeupAccount(
    double makeup,
    double evaporation,
    double drift,
    double neededBlowdown,
    double excessLoss,
    double freshLoss,
    double otherUse,
    double storageChange,
    double meterCorrection,
    double residual) {

  /** The account whose residual is what the other parts leave over. */
  public static MakeupAccount of(
      double makeup,
      double evaporation,
      double drift,
      double neededBlowdown,
      double excessLoss,
      double freshLoss,
      double otherUse,
      double storageChange,
      double meterCorrection) {
    double explained =
        evaporation
            + drift
            + neededBlowdown
            + excessLoss
            + freshLoss
            + otherUse
            + storageChange
            + meterCorrection;
    return new MakeupAccount(
        makeup,
        evaporation,
        drift,
        neededBlowdown,
        excessLoss,
        freshLoss,
        otherUse,
        storageChange,
        meterCorrection,
        makeup - explained);
  }

  /** Sum of the parts: the makeup, to rounding. */
  public double sum() {
    return evaporation
        + drift
        + neededBlowdown
        + excessLoss
        + freshLoss
        + otherUse
        + storageChange
        + meterCorrection
        + residual;
  }
}
