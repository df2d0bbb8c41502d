package towerledger.simulation;

import java.time.LocalDate;
import towerledger.simulation.Nuisances.LoadStep;
import towerledger.simulation.Nuisances.PressureStep;

/**
 * Everything that a plant goes through whatever its water side does: heat, evaporation, weather at
 * the intake, makeup quality and pressure. A faulty run and its sound twin share one.
 */
public final class Operation {

  private final SimulatedWeather weather;
  private final Nuisances nuisances;
  private final double[] heatW;
  private final double[] coolingW;
  private final double[] chillerKw;
  private final double[] evaporationL;
  private final double[] airPart;
  private final double[] hotC;
  private final double[] coldC;
  private final double[] makeupUsCm;
  private final double[] supplyPsi;
  private final boolean[] running;
  private final boolean[] laidUp;

  private Operation(SimulatedWeather weather, Nuisances nuisances) {
    this.weather = weather;
    this.nuisances = nuisances;
    int n = weather.hours().grid().hours();
    heatW = new double[n];
    coolingW = new double[n];
    chillerKw = new double[n];
    evaporationL = new double[n];
    airPart = new double[n];
    hotC = new double[n];
    coldC = new double[n];
    makeupUsCm = new double[n];
    supplyPsi = new double[n];
    running = new boolean[n];
    laidUp = new boolean[n];
  }

  /** Walks the plant through its weather. */
  public static Operation of(
      PlantSpec spec, SimulatedWeather weather, Nuisances nuisances, Chance chance) {
    Operation operation = new Operation(weather, nuisances);
    operation.loads(spec, chance.branch("load"));
    operation.evaporates(spec, chance.branch("tower"));
    operation.supplies(spec, chance.branch("supply"));
    return operation;
  }

  private void loads(PlantSpec spec, Chance chance) {
    LoadPattern load = spec.load();
    LocalHours hours = weather.hours();
    int n = heatW.length;
    double[] mood = chance.branch("mood").wandering(n, 60, 0.05);
    double[] flicker = chance.branch("flicker").wandering(n, 2, 0.03);
    double smoothed = weather.dryBulbC(0);
    double peakW = load.peakPart() * spec.rating().nominalW();
    double full = load.chiller() ? 1 + load.kwPerTon() / 3.51685 : 1;
    for (int i = 0; i < n; i++) {
      smoothed += (weather.dryBulbC(i) - smoothed) / 5;
      LocalDate date = hours.date(i);
      laidUp[i] = spec.basin().idle(date.getMonthValue());
      double activity =
          load.use()
              .activity(
                  hours.dayOfWeek(i), hours.hourOfDay(i), hours.isHoliday(i), date.getMonthValue());
      double part =
          load.weatherPart(smoothed, weather.dewPointC(i))
              * activity
              * step(i)
              * Math.max(0.3, 1 + mood[i] + flicker[i]);
      if (laidUp[i] || part < 0.035) {
        continue;
      }
      running[i] = true;
      double rejected = Math.min(part * peakW, spec.rating().nominalW() * 1.05);
      boolean free =
          spec.rating().economizer() && weather.dryBulbC(i) < 5 && weather.dewPointC(i) < 1;
      if (!load.chiller()) {
        heatW[i] = rejected;
        coolingW[i] = rejected;
      } else if (free) {
        coolingW[i] = rejected / full;
        heatW[i] = coolingW[i];
      } else {
        coolingW[i] = rejected / full;
        double lift = 1 + 0.010 * (Math.max(10, weather.dewPointC(i)) - 18);
        double partLoad = 1 + 0.12 * Math.max(0, 0.35 - rejected / peakW);
        chillerKw[i] = coolingW[i] / 3516.85 * load.kwPerTon() * 0.96 * lift * partLoad;
        heatW[i] = coolingW[i] + chillerKw[i] * 1000;
      }
    }
  }

  private double step(int hour) {
    double factor = 1;
    for (LoadStep step : nuisances.loadSteps()) {
      if (hour >= step.hour()) {
        factor = step.factor();
      }
    }
    return factor;
  }

  private void evaporates(PlantSpec spec, Chance chance) {
    PlantSpec.Rating rating = spec.rating();
    WetCooler cooler = cooler(rating, weather.pressurePa(0));
    double[] wobble = chance.branch("wobble").wandering(heatW.length, 24, 0.6);
    for (int i = 0; i < heatW.length; i++) {
      if (!running[i]) {
        continue;
      }
      double dry = weather.dryBulbC(i) + rating.intakeWarmthC();
      double pa = weather.pressurePa(i);
      double vapour = Air.saturationPa(weather.dewPointC(i));
      double ratio = 0.62198 * vapour / (pa - vapour);
      boolean free = spec.load().chiller() && chillerKw[i] == 0;
      double setpoint = (free ? 7.5 : rating.setpointC()) + wobble[i];
      cooler.settle(heatW[i], dry, ratio, pa, setpoint);
      evaporationL[i] = cooler.evaporationKgS() * 3600;
      airPart[i] = cooler.airPart();
      coldC[i] = cooler.coldC();
      hotC[i] = cooler.hotC();
    }
  }

  static WetCooler cooler(PlantSpec.Rating rating, double pressurePa) {
    double water = rating.waterKgS();
    if (rating.kind() == PlantSpec.Kind.CLOSED_CIRCUIT) {
      return new SprayCooler(water, water / rating.liquidToGas() * 1.25, 1.1, 3.5, 1.0);
    }
    double saturated = Air.saturationRatio(rating.wetBulbC(), pressurePa);
    double ratio =
        saturated
            - Air.CP_AIR * (rating.dryBulbC() - rating.wetBulbC()) / (Air.LATENT - 2300 * 25.0);
    return new FilmTower(
        water,
        rating.liquidToGas(),
        rating.fillExponent(),
        rating.leastAirPart(),
        rating.hotC(),
        rating.coldC(),
        rating.dryBulbC(),
        ratio,
        pressurePa);
  }

  private void supplies(PlantSpec spec, Chance chance) {
    LocalHours hours = weather.hours();
    PlantSpec.Water water = spec.water();
    int n = heatW.length;
    double phase = chance.between(0, 1);
    double[] quality = chance.branch("quality").wandering(n, 200, 0.03);
    double[] pressure = chance.branch("pressure").wandering(n, 12, 1.6);
    for (int i = 0; i < n; i++) {
      double swing = water.seasonSwing() * Math.sin(2 * Math.PI * (hours.season(i) - phase));
      makeupUsCm[i] = water.conductivity() * (1 + swing + quality[i]);
      int hour = hours.hourOfDay(i);
      double night = hour >= 23 || hour < 5 ? 1 : hour >= 6 && hour < 9 ? -0.35 : 0;
      supplyPsi[i] = water.supplyPsi() + water.nightRisePsi() * night + pressure[i];
      for (PressureStep step : nuisances.pressureSteps()) {
        if (i >= step.hour()) {
          supplyPsi[i] += step.psi();
        }
      }
    }
  }

  public SimulatedWeather weather() {
    return weather;
  }

  public LocalHours hours() {
    return weather.hours();
  }

  public Nuisances nuisances() {
    return nuisances;
  }

  /** Hours simulated, run-in included. */
  public int length() {
    return heatW.length;
  }

  /** Heat shed to the tower, W. */
  public double heatW(int hour) {
    return heatW[hour];
  }

  /** Heat taken from the building or process, W. */
  public double coolingW(int hour) {
    return coolingW[hour];
  }

  /** Electricity of the chiller, kW; zero while the economiser works. */
  public double chillerKw(int hour) {
    return chillerKw[hour];
  }

  /** Water evaporated in an hour, L. */
  public double evaporationL(int hour) {
    return evaporationL[hour];
  }

  public double airPart(int hour) {
    return airPart[hour];
  }

  public double hotC(int hour) {
    return hotC[hour];
  }

  public double coldC(int hour) {
    return coldC[hour];
  }

  public double makeupUsCm(int hour) {
    return makeupUsCm[hour];
  }

  public double supplyPsi(int hour) {
    return supplyPsi[hour];
  }

  /** Whether the pumps run. */
  public boolean running(int hour) {
    return running[hour];
  }

  /** Whether the basin is drained for the season. */
  public boolean laidUp(int hour) {
    return laidUp[hour];
  }
}
