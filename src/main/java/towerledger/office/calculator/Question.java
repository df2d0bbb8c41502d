package towerledger.office.calculator;

import towerledger.account.UnitPreference;

/**
 * One number a calculator asks for.
 *
 * @param name name of the field in addresses, and of its texts
 * @param measure what it measures
 * @param optional whether it may stay empty
 * @param usLeast least value taken from a reader of US units
 * @param usMost largest
 * @param siLeast least value taken from a reader of SI units
 * @param siMost largest
 * @param usExample shown as an example to a reader of US units
 * @param siExample the same in SI units
 */
record Question(
    String name,
    Measure measure,
    boolean optional,
    double usLeast,
    double usMost,
    double siLeast,
    double siMost,
    String usExample,
    String siExample) {

  double least(UnitPreference units) {
    return units == UnitPreference.US ? usLeast : siLeast;
  }

  double most(UnitPreference units) {
    return units == UnitPreference.US ? usMost : siMost;
  }

  String example(UnitPreference units) {
    return units == UnitPreference.US ? usExample : siExample;
  }

  /** A number that means the same in both kinds of units. */
  static Question same(String name, Measure measure, double least, double most, String example) {
    return new Question(name, measure, false, least, most, least, most, example, example);
  }

  Question mayStayEmpty() {
    return new Question(
        name, measure, true, usLeast, usMost, siLeast, siMost, usExample, siExample);
  }
}
