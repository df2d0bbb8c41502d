package towerledger.simulation.fleet;

import java.util.List;
import towerledger.simulation.Chance;
import towerledger.simulation.Climate;
import towerledger.simulation.LoadPattern;
import towerledger.simulation.LoadPattern.Use;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantSpec.Kind;

/** Draws plants as a contractor meets them. */
final class PlantLottery {

  private static final List<Use> USES =
      List.of(
          Use.OFFICE,
          Use.OFFICE,
          Use.OFFICE,
          Use.HOSPITAL,
          Use.HOSPITAL,
          Use.HOTEL,
          Use.HOTEL,
          Use.SCHOOL,
          Use.LABORATORY,
          Use.RETAIL,
          Use.DATA_CENTER,
          Use.TWO_SHIFTS,
          Use.THREE_SHIFTS);

  private PlantLottery() {}

  static PlantSpec draw(String name, Climate climate, Chance chance) {
    Use use = chance.pick(USES);
    double tons = 10 * Math.round(6 * Math.exp(chance.between(0, 3.0)));
    return new PlantSpec(
        name,
        rating(climate, use, tons, chance.branch("rating")),
        load(use, climate, chance.branch("load")),
        water(climate, chance.branch("water")),
        basin(climate, use, tons, chance.branch("basin")),
        bleed(climate, tons, chance),
        fill(tons, chance.branch("fill")));
  }

  private static PlantSpec.Rating rating(Climate climate, Use use, double tons, Chance chance) {
    double wetBulbC =
        switch (climate) {
          case HOT_DRY -> 22.8;
          case HOT_HUMID -> 26.7;
          case TEMPERATE -> 25.3;
          case COLD -> 24.2;
        };
    double coldC = wetBulbC + chance.between(3.3, 5.5);
    boolean closed = chance.happens(0.07);
    return new PlantSpec.Rating(
        closed ? Kind.CLOSED_CIRCUIT : Kind.OPEN,
        tons,
        chance.between(0.9, 1.5),
        chance.between(0.5, 0.75),
        chance.between(0.08, 0.15),
        coldC + 5.56,
        coldC,
        wetBulbC,
        climate == Climate.HOT_DRY ? 42 : 34,
        closed ? coldC - 1 : chance.between(20.5, 26.5),
        use == Use.DATA_CENTER && chance.happens(0.3) && climate != Climate.HOT_HUMID,
        chance.pick(List.of(0.00001, 0.00002, 0.00005, 0.00005, 0.0001)),
        chance.between(0, 0.8));
  }

  private static LoadPattern load(Use use, Climate climate, Chance chance) {
    boolean process = use == Use.TWO_SHIFTS || use == Use.THREE_SHIFTS;
    double peakC = climate == Climate.HOT_DRY ? 42 : climate == Climate.COLD ? 32 : 35;
    double base =
        switch (use) {
          case DATA_CENTER -> chance.between(0.75, 0.92);
          case TWO_SHIFTS, THREE_SHIFTS -> chance.between(0.5, 0.9);
          case HOSPITAL, LABORATORY -> chance.between(0.28, 0.5);
          default -> chance.between(0.12, 0.3);
        };
    return new LoadPattern(
        chance.between(0.45, 0.9),
        base,
        chance.between(6, 13),
        peakC,
        use,
        !process || chance.happens(0.3),
        chance.between(0.52, 0.8));
  }

  private static PlantSpec.Water water(Climate climate, Chance chance) {
    double middle =
        switch (climate) {
          case HOT_DRY -> 700;
          case HOT_HUMID -> 430;
          case TEMPERATE -> 320;
          case COLD -> 400;
        };
    boolean regulated = chance.happens(0.4);
    double supply = chance.between(42, 78);
    return new PlantSpec.Water(
        middle * chance.factor(0.2),
        chance.between(0.02, 0.13),
        chance.between(0.08, 0.17),
        chance.between(0.25, 0.5),
        supply,
        chance.between(3, 12),
        regulated ? Math.min(supply - 2, chance.between(42, 52)) : Double.NaN);
  }

  private static PlantSpec.Basin basin(Climate climate, Use use, double tons, Chance chance) {
    double volume = tons * 38 * chance.factor(0.25);
    boolean idle =
        (use == Use.SCHOOL || use == Use.OFFICE)
            && (climate == Climate.COLD || climate == Climate.TEMPERATE)
            && chance.happens(0.5);
    return new PlantSpec.Basin(
        volume, volume * chance.between(0.15, 0.28), idle ? 12 : 0, idle ? 2 : 0);
  }

  private static PlantSpec.Bleed bleed(Climate climate, double tons, Chance parent) {
    Chance chance = parent.branch("bleed");
    double luck = chance.between(0, 1);
    BleedMode mode =
        luck < 0.65
            ? BleedMode.CONDUCTIVITY
            : luck < 0.77
                ? BleedMode.MAKEUP_PROPORTIONAL
                : luck < 0.9 ? BleedMode.TIMER : BleedMode.MANUAL;
    double cycles = Math.round(chance.between(2.6, 5.8) * 5) / 5.0;
    // The same draw as in water(): the aim is set on the mean conductivity of this site's supply.
    double makeup = water(climate, parent.branch("water")).conductivity();
    double evaporationL = tons * 5.5;
    return new PlantSpec.Bleed(
        mode,
        cycles,
        10 * Math.round(cycles * makeup / 10),
        evaporationL / (cycles - 1) * chance.between(2.2, 4));
  }

  private static PlantSpec.FillValve fill(double tons, Chance chance) {
    String control =
        chance.pick(
            List.of(
                "mechanical-float",
                "mechanical-float",
                "mechanical-float",
                "float-switch",
                "conductance-probes",
                "ultrasonic"));
    // Wide open at 45 psi the valve passes two to four times the makeup of full load.
    double gpm = tons * 0.05 * chance.between(2, 4);
    double cv = Math.round(10 * gpm / Math.sqrt(45)) / 10.0;
    double line = cv < 4 ? 0.5 : cv < 9 ? 0.75 : cv < 15 ? 1 : cv < 28 ? 1.5 : cv < 60 ? 2 : 3;
    return new PlantSpec.FillValve(control, line, cv, !control.equals("mechanical-float"));
  }
}
