package towerledger.tariff;

import org.jspecify.annotations.Nullable;
import towerledger.quantity.Volume;

/**
 * One system's water in a bill period, as far as it is known: what an evaporation credit is made
 * of.
 *
 * @param system code of the system
 * @param makeup makeup by its submeter
 * @param blowdown blowdown by its submeter
 * @param creditMeter volume by the utility's credit meter
 * @param modelled evaporation and drift from heat load and weather, best estimate
 * @param modelledUpper upper bound (95 %) of the same
 */
public record TowerWater(
    String system,
    @Nullable Volume makeup,
    @Nullable Volume blowdown,
    @Nullable Volume creditMeter,
    @Nullable Volume modelled,
    @Nullable Volume modelledUpper) {

  public TowerWater {
    requireNotNegative(system, "makeup", makeup);
    requireNotNegative(system, "blowdown", blowdown);
    requireNotNegative(system, "credit meter volume", creditMeter);
    requireNotNegative(system, "modelled evaporation", modelled);
    requireNotNegative(system, "upper bound of modelled evaporation", modelledUpper);
  }

  /** A system of which nothing is known yet. */
  public static TowerWater of(String system) {
    return new TowerWater(system, null, null, null, null, null);
  }

  /** With the makeup of the period by its submeter. */
  public TowerWater withMakeup(Volume volume) {
    return new TowerWater(system, volume, blowdown, creditMeter, modelled, modelledUpper);
  }

  /** With the blowdown of the period by its submeter. */
  public TowerWater withBlowdown(Volume volume) {
    return new TowerWater(system, makeup, volume, creditMeter, modelled, modelledUpper);
  }

  /** With what the utility's credit meter counted in the period. */
  public TowerWater withCreditMeter(Volume volume) {
    return new TowerWater(system, makeup, blowdown, volume, modelled, modelledUpper);
  }

  /** The modelled evaporation and drift with its upper bound. */
  public TowerWater withModelled(Volume best, Volume upper) {
    return new TowerWater(system, makeup, blowdown, creditMeter, best, upper);
  }

  private static void requireNotNegative(String system, String what, @Nullable Volume volume) {
    if (volume != null && volume.litres() < 0) {
      throw new IllegalArgumentException(
          "%s of system %s is %.1f L, below 0; correct the readings of the period"
              .formatted(what, system, volume.litres()));
    }
  }
}
