package towerledger.psychrometrics;

import towerledger.quantity.OutOfRangeException;

/**
 * A state of moist air, from which every other property follows.
 *
 * <p>Source: ASHRAE Handbook—Fundamentals (2017), chapter 1; equation numbers at the formulas.
 * Perfect-gas relations: saturation humidity differs from real air by up to 0.5 % near sea level
 * (the enhancement factor is left out, as the chapter does).
 *
 * @param dryBulbC °C, −100 … 200
 * @param humidityRatio kg of vapour per kg of dry air, from zero to saturation
 * @param pressurePa air pressure at the place, Pa, 10 000 … 200 000
 */
public record MoistAir(double dryBulbC, double humidityRatio, double pressurePa) {

  /** Lowest air pressure accepted, Pa: about 16 km of altitude. */
  public static final double LEAST_PRESSURE_PA = 10_000;

  /** Highest air pressure accepted, Pa. */
  public static final double MOST_PRESSURE_PA = 200_000;

  /** Gas constant of dry air, J/(kg·K); equation 26. */
  private static final double DRY_AIR_GAS_CONSTANT = 287.042;

  public MoistAir {
    requirePressure(pressurePa);
    requireDryBulb(dryBulbC);
    double vapour = SaturationPressure.pascals(dryBulbC);
    double saturated =
        vapour < pressurePa
            ? HumidityRatio.ofVapourPressure(vapour, pressurePa)
            : Double.POSITIVE_INFINITY;
    if (!(humidityRatio >= 0 && humidityRatio <= saturated * (1 + 1e-9))) {
      throw new OutOfRangeException(
          "humidity ratio",
          humidityRatio,
          "kg/kg",
          "must lie between zero and saturation, "
              + OutOfRangeException.withUnit(saturated, "kg/kg"),
          "check humidity, temperature and pressure");
    }
  }

  /** Air from dry and wet bulb. */
  public static MoistAir fromWetBulb(double dryBulbC, double wetBulbC, double pressurePa) {
    requirePressure(pressurePa);
    requireDryBulb(dryBulbC);
    return new MoistAir(
        dryBulbC, HumidityRatio.fromWetBulb(dryBulbC, wetBulbC, pressurePa), pressurePa);
  }

  /** Air from dry bulb and dew (or frost) point. */
  public static MoistAir fromDewPoint(double dryBulbC, double dewPointC, double pressurePa) {
    requirePressure(pressurePa);
    requireDryBulb(dryBulbC);
    if (!(dewPointC <= dryBulbC)) {
      throw new OutOfRangeException(
          "dew point",
          dewPointC,
          "°C",
          "must not be above the dry bulb of " + OutOfRangeException.withUnit(dryBulbC, "°C"),
          "check whether the two were exchanged");
    }
    return new MoistAir(dryBulbC, HumidityRatio.saturated(dewPointC, pressurePa), pressurePa);
  }

  /** Air from dry bulb and relative humidity (0 … 1, over ice below freezing). */
  public static MoistAir fromRelativeHumidity(
      double dryBulbC, double relativeHumidity, double pressurePa) {
    requirePressure(pressurePa);
    requireDryBulb(dryBulbC);
    OutOfRangeException.requireWithin(
        "relative humidity",
        relativeHumidity,
        0,
        1,
        "",
        "give it as a share, not in percent, of saturation");
    double vapour = relativeHumidity * SaturationPressure.pascals(dryBulbC);
    return new MoistAir(dryBulbC, HumidityRatio.ofVapourPressure(vapour, pressurePa), pressurePa);
  }

  /** Thermodynamic wet bulb, °C. */
  public double wetBulbC() {
    return WetBulb.fromHumidityRatio(dryBulbC, humidityRatio, pressurePa);
  }

  /**
   * Dew point, or frost point below freezing, °C.
   *
   * @throws OutOfRangeException when the air is so dry that it has none above −100 °C
   */
  public double dewPointC() {
    return Math.min(SaturationPressure.temperatureC(vapourPressurePa()), dryBulbC);
  }

  /** Partial pressure of the vapour, Pa (equation 20). */
  public double vapourPressurePa() {
    return HumidityRatio.vapourPressurePa(humidityRatio, pressurePa);
  }

  /** Share of saturation pressure, 0 … 1 (equation 22); over ice below freezing. */
  public double relativeHumidity() {
    return vapourPressurePa() / SaturationPressure.pascals(dryBulbC);
  }

  /** Humidity ratio this air would have if saturated at its temperature, kg/kg (equation 21). */
  public double saturatedHumidityRatio() {
    return HumidityRatio.saturated(dryBulbC, pressurePa);
  }

  /** Enthalpy per kg of dry air, J/kg, zero for dry air and liquid water at 0 °C. */
  public double enthalpyJPerKg() {
    return enthalpyJPerKg(dryBulbC, humidityRatio);
  }

  /**
   * Enthalpy per kg of dry air, equation 30.
   *
   * @return J/kg
   */
  public static double enthalpyJPerKg(double dryBulbC, double humidityRatio) {
    return 1000 * (1.006 * dryBulbC + humidityRatio * (2501 + 1.86 * dryBulbC));
  }

  /** Volume per kg of dry air, m³/kg (equation 26). */
  public double specificVolumeM3PerKg() {
    return DRY_AIR_GAS_CONSTANT * (dryBulbC + 273.15) * (1 + 1.607858 * humidityRatio) / pressurePa;
  }

  /** Density of the mixture, kg/m³ (equation 11). */
  public double densityKgPerM3() {
    return (1 + humidityRatio) / specificVolumeM3PerKg();
  }

  private static void requirePressure(double pressurePa) {
    OutOfRangeException.requireWithin(
        "air pressure",
        pressurePa,
        LEAST_PRESSURE_PA,
        MOST_PRESSURE_PA,
        "Pa",
        "give the station pressure, not a gauge pressure, in the stated unit");
  }

  private static void requireDryBulb(double dryBulbC) {
    OutOfRangeException.requireWithin(
        "dry bulb",
        dryBulbC,
        SaturationPressure.COLDEST_C,
        SaturationPressure.HOTTEST_C,
        "°C",
        "the moist-air equations end there; check the reading and its unit");
  }
}
