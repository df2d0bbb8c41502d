package towerledger.simulation;

/**
 * One cooling-water system as it is built: what no customer tells in full. Temperatures in °C,
 * volumes in litres, conductivity in µS/cm, pressure in psi.
 */
public record PlantSpec(
    String name,
    Rating rating,
    LoadPattern load,
    Water water,
    Basin basin,
    Bleed bleed,
    FillValve fill) {

  /** Kinds of cooler the simulator knows. */
  public enum Kind {
    OPEN,
    CLOSED_CIRCUIT
  }

  /**
   * The tower as rated and as it is run.
   *
   * @param nominalTons all cells; a tower ton is 15,000 Btu/h
   * @param liquidToGas water to dry air at the rating
   * @param fillExponent how the Merkel number falls with L/G
   * @param leastAirPart air drawn with fans at their slowest
   * @param setpointC cold water wanted
   * @param economizer whether cold weather cools the building without the chiller
   * @param driftPart of the circulation at full air
   * @param intakeWarmthC how much warmer the intake is than the station (roof, recirculation)
   */
  public record Rating(
      Kind kind,
      double nominalTons,
      double liquidToGas,
      double fillExponent,
      double leastAirPart,
      double hotC,
      double coldC,
      double wetBulbC,
      double dryBulbC,
      double setpointC,
      boolean economizer,
      double driftPart,
      double intakeWarmthC) {

    /** Circulation by the trade's 3 gpm a ton. */
    public double waterKgS() {
      return nominalTons * 3 * 3.785411784 / 60 * 0.9957;
    }

    public double nominalW() {
      return nominalTons * 15_000 * 0.29307107;
    }
  }

  /**
   * What comes from the main.
   *
   * @param seasonSwing half of the yearly swing of conductivity as a part of its mean
   * @param regulatorPsi set pressure of a regulator before the fill valve, or NaN without one
   */
  public record Water(
      double conductivity,
      double seasonSwing,
      double chloridePerConductivity,
      double calciumPerConductivity,
      double supplyPsi,
      double nightRisePsi,
      double regulatorPsi) {

    /** Pressure at the fill valve: a regulator lets a little of a change through. */
    public double inletPsi(double supply) {
      return Double.isNaN(regulatorPsi) || supply <= regulatorPsi
          ? supply
          : regulatorPsi + 0.06 * (supply - regulatorPsi);
    }
  }

  /**
   * Water in the loop.
   *
   * @param volumeL at working level
   * @param freeboardL what the basin still takes before it overflows
   * @param idleFromMonth first month laid up and drained, 0 for never
   * @param idleToMonth last month laid up
   */
  public record Basin(double volumeL, double freeboardL, int idleFromMonth, int idleToMonth) {

    public boolean idle(int month) {
      if (idleFromMonth == 0) {
        return false;
      }
      return idleFromMonth <= idleToMonth
          ? month >= idleFromMonth && month <= idleToMonth
          : month >= idleFromMonth || month <= idleToMonth;
    }
  }

  /** How the bleed is controlled. */
  public enum BleedMode {
    CONDUCTIVITY("conductivity"),
    MAKEUP_PROPORTIONAL("makeup-proportional"),
    TIMER("timer"),
    MANUAL("manual");

    private final String code;

    BleedMode(String code) {
      this.code = code;
    }

    public String code() {
      return code;
    }
  }

  /** Bleed and its aim. */
  public record Bleed(
      BleedMode mode, double targetCycles, double setpointUsCm, double capacityLPerHour) {}

  /**
   * The valve that fills the basin.
   *
   * @param levelControl code of the level control
   * @param cv US gpm at 1 psi, wide open
   * @param bursts whether it fills in full-bore bursts rather than by throttling
   */
  public record FillValve(String levelControl, double lineIn, double cv, boolean bursts) {

    double wideOpenLPerHour(double inletPsi) {
      return cv * Math.sqrt(Math.max(0, inletPsi)) * 60 * 3.785411784;
    }
  }
}
