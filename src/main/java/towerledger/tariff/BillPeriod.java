package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;

/**
 * The days of a bill, and how parts of them share in it.
 *
 * @param startInclusive first day
 * @param endExclusive first day no longer in it
 * @param days days in it
 */
record BillPeriod(LocalDate startInclusive, LocalDate endExclusive, long days) {

  /** Decimals of a quotient; twice settled away by {@link Bill} before a cent is decided. */
  private static final int QUOTIENT_DECIMALS = 15;

  /** Days in an average month of the Gregorian calendar: 365.2425 / 12. */
  private static final double DAYS_PER_MONTH = 365.2425 / 12;

  /**
   * How far a bill may be from its regular length and still be one bill: meters are read up to a
   * few days early or late. Common practice, no source.
   */
  private static final double LENGTH_TOLERANCE = 0.2;

  static BillPeriod of(SiteUse use) {
    return new BillPeriod(
        use.startInclusive(),
        use.endExclusive(),
        ChronoUnit.DAYS.between(use.startInclusive(), use.endExclusive()));
  }

  /**
   * Regular bills in the period: 1 when its length is within 20 % of a regular bill's; otherwise
   * whole calendar months over months per bill; otherwise days over average days.
   */
  BigDecimal regularBills(int monthsPerBill) {
    double regularDays = monthsPerBill * DAYS_PER_MONTH;
    double bills = days / regularDays;
    if (Math.abs(bills - 1) <= LENGTH_TOLERANCE) {
      return BigDecimal.ONE;
    }
    long months = ChronoUnit.MONTHS.between(startInclusive, endExclusive);
    if (startInclusive.plusMonths(months).equals(endExclusive)) {
      return BigDecimal.valueOf(months)
          .divide(BigDecimal.valueOf(monthsPerBill), QUOTIENT_DECIMALS, RoundingMode.HALF_EVEN)
          .stripTrailingZeros();
    }
    return BigDecimal.valueOf(bills).setScale(6, RoundingMode.HALF_EVEN);
  }

  /** The part of a whole that falls on some of the days. */
  BigDecimal part(BigDecimal whole, long someDays) {
    return someDays == days
        ? whole
        : whole
            .multiply(BigDecimal.valueOf(someDays))
            .divide(BigDecimal.valueOf(days), QUOTIENT_DECIMALS, RoundingMode.HALF_EVEN);
  }
}
