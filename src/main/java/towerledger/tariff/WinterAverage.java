package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import towerledger.quantity.VolumeUnit;

/**
 * The average water use of a regular winter bill, from the utility's own water bills: the cap of
 * sewer schedules that charge at most the winter's use for the rest of the year.
 */
public final class WinterAverage {

  private WinterAverage() {}

  /**
   * The average of the last winter before a day.
   *
   * <p>The bills counted are those of water whose middle day lies in a winter month of the twelve
   * months before; the average is of a regular bill of the sewer schedule.
   *
   * @param schedules the site's schedules
   * @param bills the site's bills
   * @param day first day of the bill to be capped
   * @return empty when no sewer schedule is capped so, or no bill of the winter tells its units
   */
  public static Optional<Usage> find(
      List<RateSchedule> schedules, List<UtilityBill> bills, LocalDate day) {
    Optional<RateVersion> sewer = inForce(schedules, Service.SEWER, day);
    if (sewer.isEmpty() || sewer.get().sewer().basis() != SewerRule.Basis.WINTER_AVERAGE) {
      return Optional.empty();
    }
    BigDecimal units = BigDecimal.ZERO;
    BigDecimal regular = BigDecimal.ZERO;
    VolumeUnit unit = sewer.get().billingUnit();
    for (UtilityBill bill : bills) {
      LocalDate middle =
          bill.from().plusDays((bill.to().toEpochDay() - bill.from().toEpochDay()) / 2);
      Optional<RateVersion> water = inForce(schedules, Service.WATER, bill.from());
      if (bill.service() == Service.WATER
          && bill.units() != null
          && water.isPresent()
          && middle.isBefore(day)
          && !middle.isBefore(day.minusYears(1))
          && sewer.get().sewer().isWinter(middle.getMonthValue())) {
        units = units.add(new Usage(bill.units(), water.get().billingUnit()).in(unit));
        regular =
            regular.add(
                BillPeriod.of(SiteUse.of(bill.from(), bill.to(), new Usage(BigDecimal.ZERO, unit)))
                    .regularBills(sewer.get().monthsPerBill()));
      }
    }
    return regular.signum() == 0
        ? Optional.empty()
        : Optional.of(
            new Usage(units.divide(regular, Usage.UNIT_DECIMALS, RoundingMode.HALF_EVEN), unit));
  }

  private static Optional<RateVersion> inForce(
      List<RateSchedule> schedules, Service service, LocalDate day) {
    return schedules.stream()
        .filter(schedule -> schedule.service() == service)
        .findFirst()
        .flatMap(schedule -> schedule.findVersion(day));
  }
}
