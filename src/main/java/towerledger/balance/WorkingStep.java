package towerledger.balance;

/**
 * One step of a month's derivation, in the order of the calculation.
 *
 * @param name what the step yields
 * @param value the value in the unit beside it
 * @param unit SI unit: L, kWh, µS/cm, h, or empty for a ratio
 * @param formula how it follows from the steps before, or empty for an input
 * @param source where the input or the formula comes from
 */
public record WorkingStep(String name, double value, String unit, String formula, String source) {}
