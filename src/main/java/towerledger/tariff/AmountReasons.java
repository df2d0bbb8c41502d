package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Money;
import towerledger.tariff.BillCheck.Reason;

/** Tries what a utility may have done differently until the billed amount comes out. */
final class AmountReasons {

  private static final BigDecimal MATCH = new BigDecimal("0.05");

  private final UtilityBill bill;
  private final RateSchedule schedule;
  private final SiteUse billed;
  private final Currency currency;
  private final Money gap;
  private final @Nullable Money creditDue;

  AmountReasons(
      UtilityBill bill,
      RateSchedule schedule,
      SiteUse billed,
      Currency currency,
      Money gap,
      @Nullable Money creditDue) {
    this.bill = bill;
    this.schedule = schedule;
    this.billed = billed;
    this.currency = currency;
    this.gap = gap;
    this.creditDue = creditDue;
  }

  void add(List<Reason> reasons) {
    int before = reasons.size();
    addVersions(reasons);
    addMeterSizes(reasons);
    if (creditDue != null && !BillCheck.beyond(gap.plus(creditDue), MATCH)) {
      reasons.add(
          new Reason(
              Reason.Kind.CREDIT_IN_THE_AMOUNT,
              "the amount is lower by %s, which is the evaporation credit due"
                  .formatted(creditDue.amount())));
    }
    if (reasons.size() == before) {
      reasons.add(
          new Reason(
              Reason.Kind.AMOUNT_UNEXPLAINED,
              "%s billed, %s off its own units at schedule %s; compare the lines of the bill with"
                      .formatted(
                          Objects.requireNonNull(bill.amount())
                              .setScale(2, RoundingMode.HALF_UP)
                              .toPlainString(),
                          gap.rounded().amount().toPlainString(),
                          schedule.code())
                  + " the schedule"));
    }
  }

  /** The whole bill at one version: the one before or after, or no proration at a change. */
  private void addVersions(List<Reason> reasons) {
    int first = schedule.indexInForce(bill.from());
    int last = schedule.indexInForce(bill.to().minusDays(1));
    for (int i = 0; i < schedule.versions().size(); i++) {
      RateVersion version = schedule.versions().get(i);
      boolean inForce = i >= first && i <= last;
      if (first == last && inForce) {
        continue;
      }
      RateSchedule alone =
          RateSchedule.of(
              schedule.code(), schedule.service(), version.withEffectiveFrom(bill.from()));
      if (matches(alone, billed)) {
        reasons.add(
            new Reason(
                inForce ? Reason.Kind.RATE_CHANGE_NOT_PRORATED : Reason.Kind.WRONG_RATE,
                "the amount is that of the rates from %s for the whole period, %s"
                    .formatted(
                        version.effectiveFrom(),
                        inForce ? "though rates changed inside it" : "which were not in force")));
      }
    }
  }

  private void addMeterSizes(List<Reason> reasons) {
    schedule.versions().stream()
        .flatMap(version -> version.meterSizes().stream())
        .distinct()
        .filter(size -> !size.equals(billed.meterSize()))
        .filter(size -> matches(schedule, billed.withMeterSize(size)))
        .forEach(
            size ->
                reasons.add(
                    new Reason(
                        Reason.Kind.WRONG_METER_SIZE,
                        "the amount is that of a meter of %s, not of %s"
                            .formatted(
                                size,
                                billed.meterSize() == null
                                    ? "an unknown size"
                                    : billed.meterSize()))));
  }

  private boolean matches(RateSchedule rates, SiteUse use) {
    try {
      Money credit =
          Money.of(Optional.ofNullable(bill.creditAmount()).orElse(BigDecimal.ZERO), currency);
      Money total = Billing.bill(rates, use, currency).total().minus(credit);
      return !BillCheck.beyond(
          total.minus(Money.of(Objects.requireNonNull(bill.amount()), currency)), MATCH);
    } catch (TariffException e) {
      return false; // a version without this meter size cannot be what was billed
    }
  }
}
