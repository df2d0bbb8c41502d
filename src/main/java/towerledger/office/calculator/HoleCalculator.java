package towerledger.office.calculator;

import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import towerledger.drawing.FigureText;
import towerledger.office.calculator.Answer.Step;
import towerledger.quantity.Pressure;
import towerledger.thermal.water.Discharge;
import towerledger.wording.Words;

/** What a hole in a line lets through. */
@Component
@Order(4)
class HoleCalculator implements Calculator {

  @Override
  public String name() {
    return "hole";
  }

  @Override
  public List<Question> questions() {
    return List.of(
        new Question("bore", Measure.BORE, false, 0.005, 12, 0.1, 300, "0.125", "3"),
        new Question("pressure", Measure.PRESSURE, false, 0.1, 500, 1, 3500, "60", "400"));
  }

  @Override
  public Answer answer(Given given, Words words, FigureText text) {
    return Through.answer(
        "hole",
        Discharge.throughHole(
            given.get("bore"),
            Pressure.ofPascals(given.get("pressure")),
            Discharge.USUAL_COEFFICIENT),
        List.of(new Step("Q = 0.61 · A · √(2 Δp / ρ)", words.of("calc.hole.source"))),
        List.of(words.of("calc.hole.note")),
        words,
        text);
  }
}
