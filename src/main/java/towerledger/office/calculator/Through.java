package towerledger.office.calculator;

import java.util.List;
import towerledger.drawing.FigureText;
import towerledger.office.calculator.Answer.Figure;
import towerledger.office.calculator.Answer.Step;
import towerledger.quantity.Flow;
import towerledger.wording.Words;

/** Says a flow through something as what it comes to by the hour, day and month. */
final class Through {

  private static final double SECONDS_PER_HOUR = 3600;
  private static final double HOURS_PER_DAY = 24;
  private static final double DAYS_PER_MONTH = 30;

  private Through() {}

  static Answer answer(
      String calculator,
      Flow flow,
      List<Step> working,
      List<String> notes,
      Words words,
      FigureText text) {
    double day = SECONDS_PER_HOUR * HOURS_PER_DAY;
    return new Answer(
        words.of("calc." + calculator + ".says", text.flow(flow), text.volume(flow.over(day))),
        List.of(
            new Figure(words.of("calc.hour"), text.volume(flow.over(SECONDS_PER_HOUR))),
            new Figure(words.of("calc.day"), text.volume(flow.over(day))),
            new Figure(words.of("calc.month"), text.volume(flow.over(DAYS_PER_MONTH * day)))),
        working,
        notes);
  }
}
