package towerledger.office.calculator;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One calculator as it is read.
 *
 * @param name which one
 * @param others all of them, to go between
 * @param fields what it asks, as typed
 * @param answer the answer; null before it is asked or while something is wrong
 * @param trouble why the numbers do not go together; null when they do
 */
record CalculatorView(
    String name,
    List<String> others,
    List<Field> fields,
    @Nullable Answer answer,
    @Nullable String trouble) {

  /**
   * A number asked for.
   *
   * @param name name of the question
   * @param unit unit in the reader's units
   * @param typed what was typed; the example before that
   * @param optional whether it may stay empty
   * @param wrong what is wrong with it; null for nothing
   */
  record Field(String name, String unit, String typed, boolean optional, @Nullable String wrong) {}
}
