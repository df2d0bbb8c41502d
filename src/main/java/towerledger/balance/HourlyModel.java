package towerledger.balance;

import java.time.Instant;
import java.util.List;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WeatherHours;

/** Turns facts into evaporation by the hour. */
final class HourlyModel {

  /** Cold water while an economizer cools without the chiller; common practice, no source. */
  private static final double ECONOMIZER_SETPOINT_C = 8;

  /** Outdoor temperature below which sprays of coil towers are often off; common practice. */
  private static final double MAY_RUN_DRY_C = 5;

  private HourlyModel() {}

  /**
   * Evaporation of each hour.
   *
   * @param assumptions receives what had to be assumed of the towers
   */
  static SystemHours of(
      SystemFacts facts, Instant start, int hours, TowerTables tables, List<String> assumptions) {
    double nominal = ControlPlanner.nominalWatts(facts);
    double[] shape = LoadShape.of(facts.attributes(), facts.zone(), facts.weather(), start, hours);
    byte[] grade = new byte[hours];
    boolean[] freeHours = HeatSpread.freeHours(facts, start, hours);
    boolean coil = facts.attributes().kind() != SystemAttributes.Kind.OPEN;
    double[] even = new double[hours];
    double[] load = HeatSpread.spread(facts, start, shape, nominal, freeHours, grade, even);
    boolean[] vague = unseen(freeHours, grade);
    WeatherHours weather = facts.weather();
    TowerModel towers = TowerModel.of(facts, pressure(weather), tables::of);
    assumptions.addAll(towers.assumptions());
    double[] setpoint = setpoints(facts, start, hours, assumptions);
    int offset = (int) ((start.getEpochSecond() - weather.start().getEpochSecond()) / 3600);
    double[] carried = new double[hours];
    for (int h = 0; h < hours; h++) {
      int w = offset + h;
      if (w < 0
          || w >= weather.hours()
          || Double.isNaN(weather.dryBulbC(w))
          || Double.isNaN(weather.wetBulbC(w))) {
        carried[h] = Double.NaN;
      } else if (load[h] > 0) {
        double dry = weather.dryBulbC(w);
        vague[h] |= coil && dry < MAY_RUN_DRY_C;
        carried[h] = Math.min(load[h], 1.3);
        if (HeatSpread.freeCooling(facts.attributes(), dry)) {
          setpoint[h] = ECONOMIZER_SETPOINT_C;
        }
      }
    }
    double[] evaporation =
        towers.evaporationL(carried, nominal, tables.airAt(weather, offset), setpoint);
    return new SystemHours(start.getEpochSecond(), evaporation, load, grade, vague, even);
  }

  /** Hours of free cooling whose heat nothing tells: what meters the heat sees them too. */
  private static boolean[] unseen(boolean[] freeHours, byte[] grade) {
    boolean[] unseen = new boolean[freeHours.length];
    for (int h = 0; h < unseen.length; h++) {
      unseen[h] = freeHours[h] && grade[h] == EvidenceGrade.D.ordinal();
    }
    return unseen;
  }

  private static double pressure(WeatherHours weather) {
    for (int i = 0; i < weather.hours(); i++) {
      if (!Double.isNaN(weather.pressurePa(i))) {
        // Rounded to a kilopascal so that towers of one place share a table.
        return Math.round(weather.pressurePa(i) / 1000) * 1000;
      }
    }
    return TowerAir.STANDARD_PRESSURE_PA;
  }

  private static double[] setpoints(
      SystemFacts facts, Instant start, int hours, List<String> assumptions) {
    double[] setpoints = new double[hours];
    List<OperatingSettings> settings = facts.settings();
    int next = 0;
    double now = TowerModel.USUAL_SETPOINT_C;
    boolean assumed = true;
    long until = Long.MIN_VALUE; // the set-point holds up to here, seconds after the start
    for (int h = 0; h < hours; h++) {
      while (next <= settings.size() && until < 3600L * h + 1) {
        if (next > 0) {
          assumed = settings.get(next - 1).coldWaterSetpointC().isEmpty();
          now = settings.get(next - 1).coldWaterSetpointC().orElse(TowerModel.USUAL_SETPOINT_C);
        }
        until =
            next < settings.size()
                ? settings.get(next).effectiveFrom().getEpochSecond() - start.getEpochSecond()
                : Long.MAX_VALUE;
        next++;
      }
      setpoints[h] = Math.max(5, Math.min(55, now));
    }
    if (assumed) {
      assumptions.add(
          "cold-water set-point not known: %.0f °C".formatted(TowerModel.USUAL_SETPOINT_C));
    }
    return setpoints;
  }
}
