package towerledger.balance;

/**
 * One line of a month's uncertainty budget (JCGM 100:2008, 5.1): what a single input contributes to
 * the standard uncertainty of the unaccounted water.
 *
 * @param input the uncertain input, in words
 * @param relativeUncertainty standard uncertainty of the input as a fraction of it
 * @param contributionLitres contribution to the result, |sensitivity| × uncertainty, litres
 * @param source where the uncertainty comes from
 */
public record BudgetLine(
    String input, double relativeUncertainty, double contributionLitres, String source) {}
