package towerledger.simulation;

/**
 * Four climates in monthly means: invented, of the order of a south-western desert, a Gulf coast, a
 * mid-Atlantic and an upper Midwestern town.
 */
public enum Climate {
  HOT_DRY(
      new double[] {13, 15, 18.5, 22.5, 27.5, 32.5, 35, 34, 31, 24.5, 17.5, 12.5},
      new double[] {2, 2, 2, 1, 3, 6, 14, 15, 10, 5, 2, 2},
      7.5,
      3.5,
      2.2,
      350),
  HOT_HUMID(
      new double[] {12, 14, 17.5, 21, 25, 28, 29, 29, 26.5, 22, 17, 13.5},
      new double[] {7, 9, 13, 16, 20, 23, 24, 24, 21.5, 16, 11, 8.5},
      4.6,
      4.5,
      1.6,
      12),
  TEMPERATE(
      new double[] {1, 2.5, 7, 13, 18, 23, 25.5, 24.5, 20.5, 14, 8.5, 3},
      new double[] {-6, -5.5, -2, 3.5, 10, 15.5, 18, 17.5, 14, 7.5, 1.5, -3.5},
      5.4,
      5.0,
      2.8,
      95),
  COLD(
      new double[] {-9.5, -7, -0.5, 7.5, 14.5, 20, 22.5, 21, 16.5, 9, 1, -6.5},
      new double[] {-14, -11.5, -6, -0.5, 6.5, 13, 16, 15, 10.5, 3, -3.5, -10},
      5.2,
      6.5,
      3.2,
      280);

  private final double[] meanDryBulbC;
  private final double[] meanDewPointC;
  private final double dayHalfRangeC;
  private final double winterFrontC;
  private final double summerFrontC;
  private final double elevationM;

  Climate(
      double[] meanDryBulbC,
      double[] meanDewPointC,
      double dayHalfRangeC,
      double winterFrontC,
      double summerFrontC,
      double elevationM) {
    this.meanDryBulbC = meanDryBulbC;
    this.meanDewPointC = meanDewPointC;
    this.dayHalfRangeC = dayHalfRangeC;
    this.winterFrontC = winterFrontC;
    this.summerFrontC = summerFrontC;
    this.elevationM = elevationM;
  }

  double meanDryBulbC(double season) {
    return interpolate(meanDryBulbC, season);
  }

  double meanDewPointC(double season) {
    return interpolate(meanDewPointC, season);
  }

  /** Half of the swing from night to afternoon on an average day. */
  double dayHalfRangeC() {
    return dayHalfRangeC;
  }

  /** Standard deviation that passing weather adds to a day's mean. */
  double frontC(double season) {
    double winter = 0.5 + 0.5 * Math.cos(2 * Math.PI * (season - 0.04));
    return summerFrontC + (winterFrontC - summerFrontC) * winter;
  }

  public double elevationM() {
    return elevationM;
  }

  /** Means sit at mid-month and join by straight lines around the year. */
  private static double interpolate(double[] months, double season) {
    double position = season * 12 - 0.5;
    int before = (int) Math.floor(position);
    double part = position - before;
    return months[Math.floorMod(before, 12)] * (1 - part)
        + months[Math.floorMod(before + 1, 12)] * part;
  }
}
