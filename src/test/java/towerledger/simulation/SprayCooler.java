package towerledger.simulation;

/**
 * A closed-circuit cooler: spray water of one temperature wets a coil, the air leaves part of the
 * way to saturation at it (Merkel at uniform water temperature). It runs dry below a given outside
 * temperature and then evaporates nothing.
 */
final class SprayCooler implements WetCooler {

  private final double sprayKgS;
  private final double airKgS;
  private final double transferUnits;
  private final double coilApproachC;
  private final double dryBelowC;
  private double evaporationKgS;
  private double sprayC;
  private double airPart;
  private double rangeC;

  SprayCooler(
      double sprayKgS,
      double airKgS,
      double transferUnits,
      double coilApproachC,
      double dryBelowC) {
    this.sprayKgS = sprayKgS;
    this.airKgS = airKgS;
    this.transferUnits = transferUnits;
    this.coilApproachC = coilApproachC;
    this.dryBelowC = dryBelowC;
  }

  @Override
  public void settle(
      double heatW, double inDryBulbC, double inRatio, double pressurePa, double setpointC) {
    rangeC = heatW / (sprayKgS * Air.CP_WATER);
    double inEnthalpy = Air.enthalpy(inDryBulbC, inRatio);
    if (inDryBulbC < dryBelowC) {
      evaporationKgS = 0;
      airPart = Math.min(1, heatW / (airKgS * Air.CP_AIR * 18));
      sprayC = setpointC - coilApproachC;
      return;
    }
    sprayC = setpointC - coilApproachC;
    double part = airFor(heatW, sprayC, inEnthalpy, pressurePa);
    if (!(part <= 1)) {
      part = 1;
      double low = sprayC;
      double high = sprayC + 30;
      for (int i = 0; i < 30; i++) {
        sprayC = (low + high) / 2;
        double needed = airFor(heatW, sprayC, inEnthalpy, pressurePa);
        if (needed > 1) {
          low = sprayC;
        } else {
          high = sprayC;
        }
      }
    }
    airPart = Math.max(part, 0.1);
    double effectiveness = effectiveness(airPart);
    double saturated = Air.saturationRatio(sprayC, pressurePa);
    double heldPart = part / airPart;
    evaporationKgS =
        Math.max(0, heldPart * airPart * airKgS * effectiveness * (saturated - inRatio));
  }

  private double airFor(double heatW, double spray, double inEnthalpy, double pressurePa) {
    double drive = Air.enthalpy(spray, Air.saturationRatio(spray, pressurePa)) - inEnthalpy;
    if (drive <= 0) {
      return Double.POSITIVE_INFINITY;
    }
    double part = 0.5;
    for (int i = 0; i < 6; i++) {
      part = heatW / (airKgS * effectiveness(Math.max(part, 0.05)) * drive);
    }
    return part;
  }

  private double effectiveness(double part) {
    return 1 - Math.exp(-transferUnits * Math.pow(part, -0.35));
  }

  @Override
  public double evaporationKgS() {
    return evaporationKgS;
  }

  @Override
  public double coldC() {
    return sprayC + coilApproachC;
  }

  @Override
  public double hotC() {
    return coldC() + rangeC;
  }

  @Override
  public double airPart() {
    return airPart;
  }

  @Override
  public double circulationKgS() {
    return sprayKgS;
  }
}
