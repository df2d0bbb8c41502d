package towerledger.balance;

import java.time.YearMonth;
import java.util.List;

/**
 * One month of one system reconciled, judged on the facts known by its close: to its end and ten
 * days after.
 *
 * @param month calendar month in the site's zone
 * @param grade how well the heat load is known
 * @param water the figures
 * @param judgement the verdict and its reasons
 * @param assumptions what was assumed for want of knowledge, in words
 * @param budget uncertainty budget of the unaccounted water, largest contribution first
 * @param whatToAdd facts whose absence limits the verdict, in words, most useful first
 * @param working the derivation, step by step
 */
public record MonthVerdict(
    YearMonth month,
    EvidenceGrade grade,
    WaterFigures water,
    Judgement judgement,
    List<String> assumptions,
    List<BudgetLine> budget,
    List<String> whatToAdd,
    List<WorkingStep> working) {

  public MonthVerdict {
    assumptions = List.copyOf(assumptions);
    budget = List.copyOf(budget);
    whatToAdd = List.copyOf(whatToAdd);
    working = List.copyOf(working);
  }
}
