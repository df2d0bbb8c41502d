package towerledger.retrofit;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * Whether a measure pays: what it costs once against what it saves each year. The first year saves
 * at today's rates, every later year more by the escalation; a saving comes at the end of its year
 * and is worth less by the discount rate. The saving is uncertain, normally distributed, and the
 * same in every year but for the rates: one doubt, not many that average out.
 *
 * @param cost paid today, above 0
 * @param saving of the first year, best estimate
 * @param sigma its standard uncertainty, 0 or more
 * @param escalation yearly rise of rates, −0.5 to 1
 * @param discount discount rate a year, 0 to 1
 * @param years years looked at, 1 to 30
 */
public record RetrofitCase(
    double cost, double saving, double sigma, double escalation, double discount, int years) {

  public RetrofitCase {
    require("cost", cost, Double.MIN_VALUE, 1e12);
    require("saving", saving, -1e12, 1e12);
    require("uncertainty of the saving", sigma, 0, 1e12);
    require("escalation", escalation, -0.5, 1);
    require("discount rate", discount, 0, 1);
    require("years", years, 1, 30);
  }

  private static void require(String what, double value, double lowest, double highest) {
    if (!(value >= lowest && value <= highest)) {
      throw new IllegalArgumentException(
          "%s of %s is outside %s to %s".formatted(what, value, lowest, highest));
    }
  }

  /**
   * One year.
   *
   * @param year 1 for the first
   * @param saving at that year's rates
   * @param discounted what it is worth today
   * @param balance discounted savings so far less the cost
   * @param balanceSigma standard uncertainty of the balance
   */
  public record Year(
      int year, double saving, double discounted, double balance, double balanceSigma) {}

  /** The cash flow, year by year. */
  public List<Year> cashFlow() {
    List<Year> flow = new ArrayList<>();
    double balance = -cost;
    double annuity = 0;
    for (int year = 1; year <= years; year++) {
      double worth = worth(year);
      annuity += worth;
      balance += saving * worth;
      flow.add(
          new Year(
              year,
              saving * Math.pow(1 + escalation, year - 1),
              saving * worth,
              balance,
              sigma * annuity));
    }
    return flow;
  }

  /** Net present value: all that is saved, discounted, less the cost. */
  public double netPresentValue() {
    return saving * annuity() - cost;
  }

  /** Standard uncertainty of the net present value. */
  public double netPresentValueSigma() {
    return sigma * annuity();
  }

  /** Years until the cost is back at the first year's saving; empty where nothing is saved. */
  public OptionalDouble simplePaybackYears() {
    return saving > 0 ? OptionalDouble.of(cost / saving) : OptionalDouble.empty();
  }

  /** Probability that the net present value is above 0, 0–1. */
  public double chanceOfBreakEven() {
    double spread = netPresentValueSigma();
    if (spread == 0) {
      return netPresentValue() > 0 ? 1 : 0;
    }
    return new NormalDistribution().cumulativeProbability(netPresentValue() / spread);
  }

  /** Worth today of 1 saved in the first year and, escalated, in every later one. */
  private double annuity() {
    double sum = 0;
    for (int year = 1; year <= years; year++) {
      sum += worth(year);
    }
    return sum;
  }

  /** Worth today of what a year saves for each 1 saved in the first. */
  private double worth(int year) {
    return Math.pow(1 + escalation, year - 1) / Math.pow(1 + discount, year);
  }
}
