package towerledger.office.calculator;

import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import towerledger.drawing.FigureText;
import towerledger.office.calculator.Answer.Step;
import towerledger.quantity.Pressure;
import towerledger.thermal.water.Discharge;
import towerledger.wording.Words;

/** What a fill valve lets through when it is wide open. */
@Component
@Order(3)
class ValveCalculator implements Calculator {

  @Override
  public String name() {
    return "valve";
  }

  @Override
  public List<Question> questions() {
    return List.of(
        new Question("valve-coefficient", Measure.VALVE, false, 0.01, 5000, 0.01, 4500, "9", "8"),
        new Question("pressure", Measure.PRESSURE, false, 0.1, 500, 1, 3500, "60", "400"));
  }

  @Override
  public Answer answer(Given given, Words words, FigureText text) {
    Pressure drop = Pressure.ofPascals(given.get("pressure"));
    return Through.answer(
        "valve",
        Discharge.throughValve(given.get("valve-coefficient"), drop),
        List.of(new Step("Q = Kv · √Δp", words.of("calc.valve.source"))),
        List.of(words.of("calc.valve.note"), words.of("caution.backflow")),
        words,
        text);
  }
}
