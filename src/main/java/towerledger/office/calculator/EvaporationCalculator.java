package towerledger.office.calculator;

import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import towerledger.drawing.FigureText;
import towerledger.office.calculator.Answer.Figure;
import towerledger.office.calculator.Answer.Step;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.StandardAtmosphere;
import towerledger.quantity.Flow;
import towerledger.quantity.Temperature;
import towerledger.quantity.Units;
import towerledger.quantity.Volume;
import towerledger.thermal.DesignPoint;
import towerledger.thermal.OperatingPoint;
import towerledger.thermal.TowerDesign;
import towerledger.thermal.WetTower;
import towerledger.wording.Words;

/**
 * Evaporation of an open tower at one heat load and weather. The tower behind it is a usual one: at
 * the given water flow it would cool 35 °C water to 29.4 °C at 25.6 °C wet bulb (95/85/78 °F, the
 * rating point in common use), with the usual ratio of water to air.
 */
@Component
@Order(1)
class EvaporationCalculator implements Calculator {

  private static final double RATED_HOT_C = Units.celsius(95);
  private static final double RATED_COLD_C = Units.celsius(85);
  private static final double RATED_WET_BULB_C = Units.celsius(78);
  private static final double RATED_DRY_BULB_C = Units.celsius(95);

  /** Common practice: gpm evaporated per gpm of water and °F of range. */
  private static final double RULE_PER_GPM_F = 0.00085;

  /** Factor of a 95 % interval for a normal distribution. */
  private static final double COVERAGE = 1.96;

  @Override
  public String name() {
    return "evaporation";
  }

  @Override
  public List<Question> questions() {
    return List.of(
        new Question("heat", Measure.TOWER_HEAT, false, 1, 100_000, 4, 450_000, "500", "2200"),
        new Question("water", Measure.FLOW, false, 1, 500_000, 0.1, 30_000, "1500", "95"),
        new Question("dry-bulb", Measure.TEMPERATURE, false, -40, 130, -40, 55, "85", "29"),
        new Question("wet-bulb", Measure.TEMPERATURE, false, -40, 100, -40, 38, "70", "21"),
        new Question("set-point", Measure.TEMPERATURE, false, 41, 140, 5, 60, "80", "27"),
        new Question("altitude", Measure.ALTITUDE, true, -1000, 15_000, -300, 4500, "0", "0"));
  }

  @Override
  public Answer answer(Given given, Words words, FigureText text) {
    double pressurePa = StandardAtmosphere.pressurePa(given.find("altitude").orElse(0));
    MoistAir air = MoistAir.fromWetBulb(given.get("dry-bulb"), given.get("wet-bulb"), pressurePa);
    double waterKgS = given.get("water") * DesignPoint.WATER_KG_PER_LITRE;
    TowerDesign design =
        TowerDesign.open(
            DesignPoint.withUsualAirFlow(
                waterKgS,
                RATED_HOT_C,
                RATED_COLD_C,
                MoistAir.fromWetBulb(RATED_DRY_BULB_C, RATED_WET_BULB_C, pressurePa)));
    OperatingPoint point =
        WetTower.of(design).controlled(given.get("heat"), waterKgS, air, given.get("set-point"));
    double hour = point.evaporationLitresPerHour();
    double half = COVERAGE * design.evaporationUncertainty() * hour;
    Flow flow = Flow.ofLitresPerSecond(hour / 3600);
    return new Answer(
        words.of(
            "calc.evaporation.says",
            text.estimate(
                Volume.ofLitres(hour), Volume.ofLitres(hour - half), Volume.ofLitres(hour + half)),
            text.flow(flow)),
        List.of(
            figure("day", text.volume(Volume.ofLitres(24 * hour)), words),
            figure("hot", text.temperature(Temperature.ofCelsius(point.hotWaterC())), words),
            figure("cold", text.temperature(Temperature.ofCelsius(point.coldWaterC())), words),
            figure("fans", words.of("calc.regime." + point.regime()), words),
            figure("air", text.percent(point.airFlowShare()), words),
            figure("latent", text.percent(point.latentShare()), words),
            figure("rule", text.volume(Volume.ofLitres(rule(point, given.get("water")))), words)),
        List.of(
            new Step(words.of("calc.evaporation.heat"), words.of("calc.evaporation.heat.source")),
            new Step(words.of("calc.evaporation.poppe"), words.of("calc.evaporation.poppe.source")),
            new Step(
                words.of("calc.evaporation.rated"), words.of("calc.evaporation.rated.source"))),
        List.of(words.of("calc.evaporation.note"), words.of("calc.estimate")));
  }

  private static double rule(OperatingPoint point, double waterLitresPerSecond) {
    double rangeF = (point.hotWaterC() - point.coldWaterC()) * 1.8;
    return RULE_PER_GPM_F * rangeF * waterLitresPerSecond * 3600;
  }

  private static Figure figure(String key, String value, Words words) {
    return new Figure(words.of("calc.evaporation." + key), value);
  }
}
