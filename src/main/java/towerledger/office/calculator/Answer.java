package towerledger.office.calculator;

import java.util.List;

/**
 * What a calculator says.
 *
 * @param sentence the answer in a sentence
 * @param figures the figures around it
 * @param working formula and source of each step
 * @param notes what to mind
 */
record Answer(String sentence, List<Figure> figures, List<Step> working, List<String> notes) {

  Answer {
    figures = List.copyOf(figures);
    working = List.copyOf(working);
    notes = List.copyOf(notes);
  }

  /** A figure with its name. */
  record Figure(String name, String value) {}

  /** A formula and where it is from. */
  record Step(String formula, String source) {}
}
