package towerledger.tariff;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;

/**
 * A utility's bill held against the meter and the schedule: how far its usage is from the readings,
 * how far its amount is from its own usage at the schedule's rates, and what likely explains it.
 *
 * @param bill the bill checked
 * @param unit code of the billing unit
 * @param meteredUnits units by the readings; absent when the period is not covered by any
 * @param usageGap billed minus metered units; absent when either is not known
 * @param expected bill of the billed units at the schedule's rates before any credit; absent when
 *     the bill gives no units
 * @param amountGap billed amount minus the expected one less the credit given; absent when either
 *     is not known
 * @param creditDue credit the rule gives on the metered use; absent when there is none to give
 * @param reasons likely explanations, the weightiest first; empty when bill, meter and schedule
 *     agree
 */
public record BillCheck(
    UtilityBill bill,
    String unit,
    @Nullable BigDecimal meteredUnits,
    @Nullable BigDecimal usageGap,
    @Nullable Bill expected,
    @Nullable Money amountGap,
    @Nullable Money creditDue,
    List<Reason> reasons) {

  /**
   * Share of the metered use within which bill and readings agree: twice the accuracy limit of a
   * turbine or compound meter in service (AWWA M6 allows 1.5 % for most sizes; value from memory).
   */
  private static final double USAGE_TOLERANCE = 0.03;

  /** What a utility's own rounding of lines may move a total by. Common practice, no source. */
  private static final BigDecimal AMOUNT_TOLERANCE = new BigDecimal("0.05");

  public BillCheck {
    reasons = List.copyOf(reasons);
  }

  /**
   * Checks a bill.
   *
   * @param bill the utility's bill
   * @param schedule schedule of its service
   * @param site what is known of the site in the billed days; its water is taken from the bill, its
   *     towers make the credit due
   * @param metered volume by the site's own readings of the service meter in the billed days;
   *     absent when they do not cover them
   * @throws TariffException when the schedule has no rates for the billed days
   */
  public static BillCheck of(
      UtilityBill bill,
      RateSchedule schedule,
      SiteUse site,
      @Nullable Volume metered,
      Currency currency) {
    RateVersion version =
        schedule
            .findVersion(bill.from())
            .orElseThrow(
                () ->
                    new TariffException(
                        schedule.code(),
                        "schedule %s has no rates on %s; add the version that was in force"
                            .formatted(schedule.code(), bill.from())));
    BigDecimal meteredUnits =
        metered == null ? null : Usage.units(metered.litres(), version.billingUnit());
    BigDecimal gap =
        meteredUnits == null || bill.units() == null ? null : bill.units().subtract(meteredUnits);
    List<Reason> reasons = new ArrayList<>();
    if (gap != null && meteredUnits != null && bill.units() != null) {
      usageReasons(bill, bill.units(), meteredUnits, version, reasons);
    }
    SiteUse billed =
        bill.units() == null
            ? null
            : new SiteUse(
                bill.from(),
                bill.to(),
                new Usage(bill.units(), version.billingUnit()),
                true,
                site.meterSize(),
                List.of(),
                site.returnMeter(),
                site.winterAverage());
    Bill expected = billed == null ? null : Billing.bill(schedule, billed, currency);
    Money creditDue = billed == null ? null : creditDue(schedule, billed, site, currency);
    Money amountGap = amountGap(bill, expected);
    if (billed != null && amountGap != null && beyond(amountGap, AMOUNT_TOLERANCE)) {
      new AmountReasons(bill, schedule, billed, currency, amountGap, creditDue).add(reasons);
    }
    if (creditDue != null) {
      creditReason(bill, creditDue, reasons);
    }
    return new BillCheck(
        bill,
        version.billingUnit().code(),
        meteredUnits,
        gap,
        expected,
        amountGap,
        creditDue,
        reasons);
  }

  static boolean beyond(Money gap, BigDecimal tolerance) {
    return gap.amount().abs().compareTo(tolerance) > 0;
  }

  private static @Nullable Money creditDue(
      RateSchedule schedule, SiteUse billed, SiteUse site, Currency currency) {
    if (schedule.service() != Service.SEWER || site.towers().isEmpty()) {
      return null;
    }
    Money due =
        WaterPrice.difference(
                Billing.bill(schedule, billed, currency),
                Billing.bill(schedule, billed.withTowers(site.towers()), currency))
            .rounded();
    return due.amount().signum() == 0 ? null : due;
  }

  private static @Nullable Money amountGap(UtilityBill bill, @Nullable Bill expected) {
    if (bill.amount() == null || expected == null) {
      return null;
    }
    Money credit =
        Money.of(
            Optional.ofNullable(bill.creditAmount()).orElse(BigDecimal.ZERO),
            expected.total().currency());
    return Money.of(bill.amount(), credit.currency()).minus(expected.total().minus(credit));
  }

  private static void usageReasons(
      UtilityBill bill,
      BigDecimal billed,
      BigDecimal metered,
      RateVersion version,
      List<Reason> reasons) {
    double gap = billed.subtract(metered).doubleValue();
    double tolerance = Math.max(1, USAGE_TOLERANCE * metered.doubleValue());
    if (Math.abs(gap) <= tolerance) {
      return;
    }
    String figures =
        "%s %s billed, %s by the readings"
            .formatted(
                billed.toPlainString(),
                version.billingUnit().code(),
                metered.setScale(1, RoundingMode.HALF_UP).toPlainString());
    if (Boolean.TRUE.equals(bill.estimated())) {
      reasons.add(
          new Reason(
              Reason.Kind.ESTIMATED_READ,
              figures + "; the read was estimated and the next actual read should settle it"));
    }
    double ratio = metered.signum() == 0 ? 0 : billed.doubleValue() / metered.doubleValue();
    for (Multiplier multiplier : Multiplier.values()) {
      if (Math.abs(ratio / multiplier.factor - 1) <= USAGE_TOLERANCE) {
        reasons.add(
            new Reason(
                Reason.Kind.WRONG_MULTIPLIER,
                "%s, %s times as much: %s"
                    .formatted(
                        figures,
                        new BigDecimal(ratio).round(new MathContext(3)).toPlainString(),
                        multiplier.text)));
        return;
      }
    }
    if (!Boolean.TRUE.equals(bill.estimated())) {
      reasons.add(
          new Reason(
              Reason.Kind.USAGE_UNEXPLAINED,
              figures + "; compare the register on the bill with a photograph of the dial"));
    }
  }

  private static void creditReason(UtilityBill bill, Money due, List<Reason> reasons) {
    BigDecimal given = Optional.ofNullable(bill.creditAmount()).orElse(BigDecimal.ZERO);
    BigDecimal missing = due.amount().subtract(given);
    if (given.signum() == 0) {
      reasons.add(
          new Reason(
              Reason.Kind.MISSING_CREDIT,
              "no evaporation credit on the bill; %s is due".formatted(due.amount())));
    } else if (missing.abs().compareTo(due.amount().multiply(new BigDecimal("0.02"))) > 0) {
      reasons.add(
          new Reason(
              Reason.Kind.DIFFERENT_CREDIT,
              "evaporation credit of %s on the bill; %s is due"
                  .formatted(
                      given.setScale(2, RoundingMode.HALF_UP).toPlainString(), due.amount())));
    }
  }

  private enum Multiplier {
    TEN(10, "a zero too many, or a meter multiplier of 10"),
    HUNDRED(100, "two zeros too many, or a meter multiplier of 100"),
    THOUSAND(1000, "three zeros too many, or a meter multiplier of 1000"),
    TENTH(0.1, "a zero too few, or a meter multiplier of 10 left out"),
    HUNDREDTH(0.01, "two zeros too few, or a meter multiplier of 100 left out"),
    THOUSANDTH(0.001, "three zeros too few, or a meter multiplier of 1000 left out"),
    KGAL_AS_CCF(1 / 0.748052, "hundreds of cubic feet taken for thousands of gallons"),
    CCF_AS_KGAL(0.748052, "thousands of gallons taken for hundreds of cubic feet"),
    CUBIC_FEET_AS_GALLONS(7.48052, "cubic feet taken for gallons"),
    GALLONS_AS_CUBIC_FEET(1 / 7.48052, "gallons taken for cubic feet"),
    DOUBLE(2, "counted twice, or a compound meter read twice"),
    HALF(0.5, "half of it left out, or one register of a compound meter not read");

    private final double factor;
    private final String text;

    Multiplier(double factor, String text) {
      this.factor = factor;
      this.text = text;
    }
  }

  /**
   * A likely explanation.
   *
   * @param kind sort of explanation
   * @param text words with the figures
   */
  public record Reason(Kind kind, String text) {

    /** Sort of explanation. */
    public enum Kind {
      ESTIMATED_READ,
      WRONG_MULTIPLIER,
      USAGE_UNEXPLAINED,
      WRONG_RATE,
      RATE_CHANGE_NOT_PRORATED,
      WRONG_METER_SIZE,
      CREDIT_IN_THE_AMOUNT,
      AMOUNT_UNEXPLAINED,
      MISSING_CREDIT,
      DIFFERENT_CREDIT
    }
  }
}
