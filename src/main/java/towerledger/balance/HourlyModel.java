package towerledger.balance;

import java.time.Instant;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WeatherHours;

/** Turns facts into evaporation by the hour. */
final class HourlyModel {

  /** Latent heat of vaporisation of water near 30 °C, J/kg. */
  private static final double LATENT_J_PER_KG = 2.43e6;

  private HourlyModel() {}

  static SystemHours of(SystemFacts facts, Instant start, int hours) {
    double nominal = ControlPlanner.nominalWatts(facts);
    double[] shape = LoadShape.of(facts.attributes(), facts.zone(), facts.weather(), start, hours);
    byte[] grade = new byte[hours];
    double[] load = HeatSpread.spread(facts, start, shape, nominal, grade);
    double[] evaporation = new double[hours];
    WeatherHours weather = facts.weather();
    int offset = (int) ((start.getEpochSecond() - weather.start().getEpochSecond()) / 3600);
    for (int h = 0; h < hours; h++) {
      int w = offset + h;
      if (w < 0
          || w >= weather.hours()
          || Double.isNaN(weather.dryBulbC(w))
          || Double.isNaN(weather.wetBulbC(w))) {
        evaporation[h] = Double.NaN;
      } else {
        double dry = weather.dryBulbC(w);
        double share = 0.62 + 0.0085 * dry + 0.012 * (dry - weather.wetBulbC(w));
        evaporation[h] = load[h] * nominal * 3600 / LATENT_J_PER_KG * Math.max(0.4, share);
      }
    }
    return new SystemHours(start.getEpochSecond(), evaporation, load, grade);
  }
}
