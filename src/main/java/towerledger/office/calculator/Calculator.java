package towerledger.office.calculator;

import java.util.List;
import towerledger.drawing.FigureText;
import towerledger.wording.Words;

/** A sum that people of the trade do often. */
interface Calculator {

  /** Name in addresses and of its texts. */
  String name();

  /** What it asks for, in order. */
  List<Question> questions();

  /**
   * The answer.
   *
   * @throws towerledger.quantity.OutOfRangeException when the numbers do not go together
   */
  Answer answer(Given given, Words words, FigureText text);
}
