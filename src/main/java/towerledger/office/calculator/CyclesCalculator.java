package towerledger.office.calculator;

import java.util.ArrayList;
import java.util.List;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import towerledger.drawing.FigureText;
import towerledger.office.calculator.Answer.Figure;
import towerledger.office.calculator.Answer.Step;
import towerledger.quantity.Flow;
import towerledger.quantity.OutOfRangeException;
import towerledger.quantity.Volume;
import towerledger.thermal.water.Concentration;
import towerledger.wording.Words;

/** Cycles from two conductivities, what the basin loses at them, and what the target would need. */
@Component
@Order(2)
class CyclesCalculator implements Calculator {

  private static final double SECONDS_PER_DAY = 86_400;

  @Override
  public String name() {
    return "cycles";
  }

  @Override
  public List<Question> questions() {
    return List.of(
        new Question("evaporation", Measure.FLOW, false, 0.01, 50_000, 0.001, 3000, "12", "0.75"),
        Question.same("makeup-conductivity", Measure.CONDUCTIVITY, 1, 20_000, "320"),
        Question.same("basin-conductivity", Measure.CONDUCTIVITY, 1, 100_000, "1100"),
        Question.same("target-cycles", Measure.NUMBER, 1.05, 100, "5"),
        new Question("circulation", Measure.FLOW, true, 1, 500_000, 0.1, 30_000, "1500", "95"),
        Question.same("drift", Measure.PERCENT, 0, 0.5, "0.005").mayStayEmpty());
  }

  @Override
  public Answer answer(Given given, Words words, FigureText text) {
    double makeupUsCm = given.get("makeup-conductivity");
    double basinUsCm = given.get("basin-conductivity");
    if (!(basinUsCm > makeupUsCm)) {
      throw new OutOfRangeException(
          "basin conductivity",
          basinUsCm,
          "µS/cm",
          "must be above the makeup's " + OutOfRangeException.withUnit(makeupUsCm, "µS/cm"),
          "check whether the two were exchanged");
    }
    double evaporation = given.get("evaporation");
    double target = given.get("target-cycles");
    double cycles = basinUsCm / makeupUsCm;
    double drift =
        Concentration.drift(given.find("circulation").orElse(0), given.find("drift").orElse(0));
    double lost = Concentration.concentratedLoss(evaporation, cycles);
    double needed = Concentration.neededBlowdown(evaporation, target, drift);
    double excess = Concentration.excessLoss(evaporation, 0, lost, 0, target);
    List<Figure> figures = new ArrayList<>();
    figures.add(new Figure(words.of("calc.cycles.cycles"), text.cycles(cycles)));
    add(figures, "lost", lost, words, text);
    if (drift > 0) {
      add(figures, "drift", drift, words, text);
    }
    add(figures, "needed", Math.max(needed, 0), words, text);
    add(figures, "makeup", Concentration.makeup(evaporation, cycles), words, text);
    add(figures, "makeup-at-target", Concentration.makeup(evaporation, target), words, text);
    List<String> notes = new ArrayList<>();
    if (needed < 0) {
      notes.add(words.of("calc.cycles.drift-is-enough"));
    }
    notes.add(words.of("calc.cycles.note"));
    notes.add(words.of("caution.treatment"));
    return new Answer(
        sentence(cycles, target, excess, words, text),
        figures,
        List.of(
            new Step("C = c_b / c_m", words.of("calc.cycles.source.cycles")),
            new Step("L = E / (C − 1)", words.of("calc.cycles.source.balance")),
            new Step("B* = E / (C* − 1) − D", words.of("calc.cycles.source.needed")),
            new Step("M = E · C / (C − 1)", words.of("calc.cycles.source.balance"))),
        notes);
  }

  private static String sentence(
      double cycles, double target, double excess, Words words, FigureText text) {
    String day = text.volume(Volume.ofLitres(Math.abs(excess) * SECONDS_PER_DAY));
    return words.of(
        excess > 0 ? "calc.cycles.says.excess" : "calc.cycles.says.beyond",
        text.cycles(cycles),
        text.cycles(target),
        day);
  }

  private static void add(
      List<Figure> figures, String key, double flow, Words words, FigureText text) {
    figures.add(
        new Figure(
            words.of("calc.cycles." + key),
            words.of(
                "calc.flow",
                text.flow(Flow.ofLitresPerSecond(flow)),
                text.volume(Volume.ofLitres(flow * SECONDS_PER_DAY)))));
  }
}
