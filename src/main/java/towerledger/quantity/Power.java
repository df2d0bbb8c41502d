package towerledger.quantity;

/**
 * A rate of heat or work.
 *
 * @param watts any finite rate
 */
public record Power(double watts) {

  public Power {
    Finite.require("power", watts, "W");
  }

  public static Power ofWatts(double watts) {
    return new Power(watts);
  }

  public static Power ofKilowatts(double kilowatts) {
    return new Power(kilowatts * 1000);
  }

  public static Power ofBtuPerHour(double btuPerHour) {
    return new Power(btuPerHour * Units.JOULES_PER_BTU / 3600);
  }

  /** Tons of refrigeration, 12,000 Btu/h each. */
  public static Power ofTons(double tons) {
    return new Power(tons * Units.WATTS_PER_TON);
  }

  /** Nominal tower tons, 15,000 Btu/h of rejected heat each. */
  public static Power ofTowerTons(double towerTons) {
    return new Power(towerTons * Units.WATTS_PER_TOWER_TON);
  }

  public static Power ofHorsepower(double horsepower) {
    return new Power(horsepower * Units.WATTS_PER_HORSEPOWER);
  }

  public double kilowatts() {
    return watts / 1000;
  }

  public double tons() {
    return watts / Units.WATTS_PER_TON;
  }

  public double towerTons() {
    return watts / Units.WATTS_PER_TOWER_TON;
  }

  public double btuPerHour() {
    return watts * 3600 / Units.JOULES_PER_BTU;
  }
}
