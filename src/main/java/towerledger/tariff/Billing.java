package towerledger.tariff;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Money;
import towerledger.tariff.RateVersion.Block;
import towerledger.tariff.RateVersion.BlockTable;
import towerledger.tariff.RateVersion.Charge;

/**
 * Makes bills: use and days in, lines with their working out. A pure function.
 *
 * <p>Order of the lines of a service: charges, blocks, what lifts them to the minimum charge,
 * surcharge on these, tax on all of it. Nothing is rounded but the total. Where a rate version or a
 * season begins inside the period, the period is split there and use, charges, minimum and block
 * limits are shared by days; each line then names its days. A period that is not a regular bill (a
 * month on a bimonthly schedule) has charges, minimum and block limits scaled, see {@link
 * BillPeriod#regularBills}.
 */
public final class Billing {

  private static final String[] BLOCK_NAMES = {
    "block 1", "block 2", "block 3", "block 4", "block 5", "block 6", "block 7", "block 8"
  };

  private final RateSchedule schedule;
  private final SiteUse use;
  private final Currency currency;
  private final BillPeriod period;
  private final List<BillLine> lines;
  private final Set<String> notes;

  private Billing(
      RateSchedule schedule,
      SiteUse use,
      Currency currency,
      BillPeriod period,
      List<BillLine> lines,
      Set<String> notes) {
    this.schedule = schedule;
    this.use = use;
    this.currency = currency;
    this.period = period;
    this.lines = lines;
    this.notes = notes;
  }

  /**
   * One bill under one schedule.
   *
   * @throws TariffException when the schedule has no rates for the period or the meter, or needs a
   *     volume that is not known
   */
  public static Bill bill(RateSchedule schedule, SiteUse use, Currency currency) {
    return bill(List.of(schedule), use, currency);
  }

  /**
   * One bill under several schedules, usually water and sewer, its total rounded once.
   *
   * @throws TariffException when a schedule has no rates for the period or the meter, or needs a
   *     volume that is not known
   */
  public static Bill bill(List<RateSchedule> schedules, SiteUse use, Currency currency) {
    BillPeriod period = BillPeriod.of(use);
    List<BillLine> lines = new ArrayList<>(8);
    Set<String> notes = new LinkedHashSet<>();
    for (RateSchedule schedule : schedules) {
      new Billing(schedule, use, currency, period, lines, notes).addLines();
    }
    return Bill.of(lines, currency, List.copyOf(notes));
  }

  private void addLines() {
    int index = schedule.indexInForce(period.startInclusive());
    if (index < 0) {
      throw new TariffException(
          schedule.code(),
          "schedule %s has no rates before %s and the bill begins %s; add the version that was in"
                  .formatted(
                      schedule.code(),
                      schedule.versions().get(0).effectiveFrom(),
                      period.startInclusive())
              + " force then");
    }
    LocalDate from = period.startInclusive();
    while (from.isBefore(period.endExclusive())) {
      RateVersion version = schedule.versions().get(index);
      LocalDate to = period.endExclusive();
      if (index + 1 < schedule.versions().size()
          && schedule.versions().get(index + 1).effectiveFrom().isBefore(to)) {
        to = schedule.versions().get(index + 1).effectiveFrom();
        index++;
      }
      version.requireMeterSize(schedule.code(), use.meterSize());
      addSeasons(version, from, to);
      from = to;
    }
  }

  private void addSeasons(RateVersion version, LocalDate from, LocalDate to) {
    LocalDate start = from;
    BlockTable table = tableOn(version, start);
    if (version.isSeasonal()) {
      LocalDate month = start.withDayOfMonth(1).plusMonths(1);
      while (month.isBefore(to)) {
        BlockTable next = tableOn(version, month);
        if (next != table
            || version.sewer().isWinter(month.getMonthValue())
                != version.sewer().isWinter(start.getMonthValue())) {
          addSegment(version, table, start, month);
          start = month;
          table = next;
        }
        month = month.plusMonths(1);
      }
    }
    addSegment(version, table, start, to);
  }

  private @Nullable BlockTable tableOn(RateVersion version, LocalDate day) {
    return version.findTable(schedule.code(), day.getMonthValue(), use.meterSize());
  }

  private void addSegment(
      RateVersion version, @Nullable BlockTable table, LocalDate from, LocalDate to) {
    long days = ChronoUnit.DAYS.between(from, to);
    BigDecimal regularBills = period.regularBills(version.monthsPerBill());
    BigDecimal bills = period.part(regularBills, days);
    String rule =
        days == period.days()
            ? ""
            : "%d of %d days, %s to %s, at the rates from %s"
                .formatted(days, period.days(), from, to.minusDays(1), version.effectiveFrom());
    if (regularBills.compareTo(BigDecimal.ONE) != 0) {
      notes.add(
          "%d days are %s regular bills of schedule %s (%d months per bill); charges, minimum and"
                  .formatted(
                      period.days(),
                      regularBills.stripTrailingZeros().toPlainString(),
                      schedule.code(),
                      version.monthsPerBill())
              + " block limits are scaled by that");
    }
    int first = lines.size();
    for (Charge charge : version.charges()) {
      if (version.applies(charge, use.meterSize())) {
        add(
            BillLine.Kind.CHARGE,
            charge.name(),
            bills,
            "",
            charge.amount(),
            charge.amount().multiply(bills),
            rule);
      }
    }
    if (table != null) {
      addBlocks(version, table, bills, units(version, from, days, bills, regularBills), rule);
    }
    addPercentages(version, first, bills, rule);
  }

  private void addBlocks(
      RateVersion version, BlockTable table, BigDecimal bills, BigDecimal units, String rule) {
    List<Block> blocks = table.blocks();
    BigDecimal from = BigDecimal.ZERO;
    for (int i = 0; i < blocks.size() && units.compareTo(from) > 0; i++) {
      BigDecimal above =
          i + 1 < blocks.size() ? blocks.get(i + 1).fromUnits().multiply(bills) : units;
      BigDecimal quantity = units.min(above).subtract(from);
      Block block = blocks.get(i);
      String limit =
          i == 0
              ? rule
              : "above "
                  + from.stripTrailingZeros().toPlainString()
                  + " "
                  + version.billingUnit().code()
                  + (rule.isEmpty() ? "" : "; " + rule);
      add(
          BillLine.Kind.BLOCK,
          i < BLOCK_NAMES.length ? BLOCK_NAMES[i] : "block " + (i + 1),
          quantity,
          version.billingUnit().code(),
          block.rate(),
          quantity.multiply(block.rate()),
          limit);
      from = above;
    }
  }

  private void addPercentages(RateVersion version, int first, BigDecimal bills, String rule) {
    if (version.minimumCharge() != null) {
      BigDecimal sum = sumFrom(first);
      BigDecimal minimum = version.minimumCharge().multiply(bills);
      if (sum.compareTo(minimum) < 0) {
        add(BillLine.Kind.MINIMUM, "minimum charge", sum, "", minimum, minimum.subtract(sum), rule);
      }
    }
    if (version.surchargeShare().signum() > 0) {
      BigDecimal sum = sumFrom(first);
      add(
          BillLine.Kind.SURCHARGE,
          "surcharge",
          sum,
          "",
          version.surchargeShare(),
          sum.multiply(version.surchargeShare()),
          rule);
    }
    if (version.taxShare().signum() > 0) {
      BigDecimal sum = sumFrom(first);
      add(
          BillLine.Kind.TAX,
          "tax",
          sum,
          "",
          version.taxShare(),
          sum.multiply(version.taxShare()),
          rule);
    }
  }

  private BigDecimal units(
      RateVersion version, LocalDate from, long days, BigDecimal bills, BigDecimal regularBills) {
    BigDecimal water = use.water().in(version.billingUnit());
    if (schedule.service() == Service.WATER) {
      return period.part(water, days);
    }
    SewerRule sewer = version.sewer();
    if (sewer.basis() == SewerRule.Basis.RETURN_METER) {
      return period.part(
          known(use.returnMeter(), "the volume of the return meter").in(version.billingUnit()),
          days);
    }
    BigDecimal charged = period.part(water.subtract(credit(version, water, regularBills)), days);
    if (sewer.basis() == SewerRule.Basis.PERCENT_OF_WATER && sewer.share() != null) {
      return charged.multiply(sewer.share());
    }
    if (sewer.basis() == SewerRule.Basis.WINTER_AVERAGE && !sewer.isWinter(from.getMonthValue())) {
      return charged.min(
          known(use.winterAverage(), "the average water use of a winter bill")
              .in(version.billingUnit())
              .multiply(bills));
    }
    return charged;
  }

  private BigDecimal credit(RateVersion version, BigDecimal water, BigDecimal regularBills) {
    if (version.credit().method() == CreditRule.Method.NONE || use.towers().isEmpty()) {
      return BigDecimal.ZERO;
    }
    EvaporationCredit credit =
        EvaporationCredit.assess(
            version.credit(), use, version.billingUnit(), regularBills.doubleValue());
    for (EvaporationCredit.Remark remark : credit.remarks()) {
      notes.add("evaporation credit: " + remark.text());
    }
    return Usage.units(credit.volume().litres(), version.billingUnit()).min(water);
  }

  private Usage known(@Nullable Usage usage, String what) {
    if (usage == null) {
      throw new TariffException(
          schedule.code(),
          "schedule %s bills sewer by %s, which is not known for the bill from %s; give it"
              .formatted(schedule.code(), what, period.startInclusive()));
    }
    return usage;
  }

  private BigDecimal sumFrom(int first) {
    BigDecimal sum = BigDecimal.ZERO;
    for (int i = first; i < lines.size(); i++) {
      sum = sum.add(lines.get(i).amount().amount());
    }
    return sum;
  }

  private void add(
      BillLine.Kind kind,
      String name,
      BigDecimal quantity,
      String unit,
      BigDecimal rate,
      BigDecimal amount,
      String rule) {
    lines.add(
        new BillLine(
            schedule.service(),
            kind,
            name,
            quantity,
            unit,
            rate,
            Money.of(amount, currency),
            rule));
  }
}
