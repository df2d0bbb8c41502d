package towerledger.simulation.portfolio;

import java.time.YearMonth;

/**
 * How large a book.
 *
 * @param systems how many systems of one tower each
 * @param first first month
 * @param months how many months
 * @param seed of everything
 */
public record PortfolioPlan(int systems, YearMonth first, int months, long seed) {

  /** Systems a site. */
  static final int A_SITE = 2;

  /** Sites a customer. */
  static final int A_CUSTOMER = 5;

  /** Every tenth system has hourly loads and a logger. */
  static boolean hourly(int system) {
    return system % 10 == 3;
  }

  int sites() {
    return (systems + A_SITE - 1) / A_SITE;
  }

  int customers() {
    return (sites() + A_CUSTOMER - 1) / A_CUSTOMER;
  }
}
