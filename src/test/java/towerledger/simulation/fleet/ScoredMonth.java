package towerledger.simulation.fleet;

import java.util.List;
import java.util.Optional;
import towerledger.balance.Cause;
import towerledger.balance.MonthVerdict;
import towerledger.simulation.Fault;
import towerledger.simulation.MonthTruth;

/**
 * One month of one plant: the truth, the ledger's verdict and what two spreadsheets would have
 * said.
 *
 * @param number months since the record began, from 0
 * @param faultActive whether the planted fault acted in it
 * @param thumbFlag the rule of thumb with its 20 % threshold
 * @param yearFlag last year's month with the same threshold
 */
record ScoredMonth(
    int number,
    MonthTruth truth,
    boolean faultActive,
    MonthVerdict verdict,
    boolean thumbFlag,
    boolean yearFlag) {

  boolean positive() {
    return truth.positive();
  }

  boolean flagged() {
    return verdict.judgement().flagged();
  }

  boolean wasteFlag() {
    return verdict.judgement().waste();
  }

  /** Extra water as a part of the sound makeup's total with it. */
  double netShare() {
    return truth.makeup() > 0 ? truth.netEffect() / truth.makeup() : 0;
  }

  /** Relative error of the loss as told, where the month is positive and a loss is told. */
  Optional<Double> lossError() {
    return verdict
        .water()
        .unaccounted()
        .map(u -> Math.abs(u.value().litres() - truth.netEffect()) / truth.netEffect());
  }

  /** Whether the interval of the unaccounted water holds the truth; empty without an interval. */
  Optional<Boolean> covered() {
    double truly = truth.shown() - truth.sound();
    return verdict
        .water()
        .unaccounted()
        .map(u -> u.low().litres() <= truly && truly <= u.high().litres());
  }

  Optional<Double> evaporationError() {
    if (truth.evaporation() <= 0) {
      return Optional.empty();
    }
    return verdict
        .water()
        .evaporation()
        .map(e -> Math.abs(e.value().litres() / truth.evaporation() - 1));
  }

  static Cause causeOf(Fault fault) {
    return Cause.ofCode(fault.cause().code());
  }

  boolean namesFirst(Fault fault) {
    return verdict.judgement().likeliest().cause() == causeOf(fault);
  }

  boolean namesInTwo(Fault fault) {
    return namesFirst(fault)
        || verdict.judgement().second().map(o -> o.cause() == causeOf(fault)).orElse(false);
  }

  boolean setHolds(Fault fault) {
    return causeSet().contains(causeOf(fault));
  }

  List<Cause> causeSet() {
    return verdict.judgement().causeSet();
  }
}
