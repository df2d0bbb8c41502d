package towerledger.thermal.fill;

import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.SaturationPressure;

/**
 * The constants behind the moist-air equations of ASHRAE Fundamentals (2017), chapter 1: 1.006,
 * 1.86 and 4.186 kJ/(kg·K), 2501 kJ/kg (equations 30 and 33), saturation by equation 6.
 */
public final class AshraeProperties implements AirWaterProperties {

  /** Heat capacity of water, J/(kg·K), as in equation 33. */
  public static final double WATER_HEAT_CAPACITY = 4186;

  @Override
  public double saturatedHumidityRatio(double temperatureC, double pressurePa) {
    double vapourPa = SaturationPressure.overWaterPa(temperatureC);
    return HumidityRatio.MOLAR_MASS_RATIO * vapourPa / (pressurePa - vapourPa);
  }

  @Override
  public double dryAirHeatCapacity(double temperatureC) {
    return 1006;
  }

  @Override
  public double vapourHeatCapacity(double temperatureC) {
    return 1860;
  }

  @Override
  public double waterHeatCapacity(double temperatureC) {
    return WATER_HEAT_CAPACITY;
  }

  @Override
  public double latentHeatAtZeroC() {
    return 2_501_000;
  }
}
