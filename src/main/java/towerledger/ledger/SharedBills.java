package towerledger.ledger;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.SystemFacts;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Service;
import towerledger.tariff.UtilityBill;

/** What a site's utility bills tell of a month, each by the share of its days that fall into it. */
final class SharedBills {

  private final List<UtilityBill> bills;
  private final List<RateSchedule> schedules;
  private final ZoneId zone;

  SharedBills(List<UtilityBill> bills, List<RateSchedule> schedules, ZoneId zone) {
    this.bills = bills;
    this.schedules = schedules;
    this.zone = zone;
  }

  /** Share of a bill's days that fall into a month. */
  static double overlap(YearMonth month, UtilityBill bill) {
    LocalDate next = month.plusMonths(1).atDay(1);
    LocalDate start = bill.from().isAfter(month.atDay(1)) ? bill.from() : month.atDay(1);
    LocalDate end = bill.to().isBefore(next) ? bill.to() : next;
    long days = ChronoUnit.DAYS.between(start, end);
    return days <= 0 ? 0 : (double) days / ChronoUnit.DAYS.between(bill.from(), bill.to());
  }

  /** What the bills of a service counted in a month, by days; empty where they leave it open. */
  Optional<Volume> counted(YearMonth month, Service service) {
    return sum(month, service, this::litres);
  }

  /**
   * What the water bills counted in a month besides the site's towers. The towers' own meters tell
   * their part of a bill month by month, so that only the rest is shared out by days.
   *
   * @param facts facts of every system of the site, by its code
   * @return empty where bills leave the month open, or a system has no makeup meter that encloses
   *     them
   */
  Optional<Volume> besideTowers(YearMonth month, Map<String, SystemFacts> facts) {
    return sum(
        month,
        Service.WATER,
        bill -> {
          OptionalDouble whole = litres(bill);
          OptionalDouble own = towers(bill, facts);
          return whole.isEmpty() || own.isEmpty()
              ? OptionalDouble.empty()
              : OptionalDouble.of(Math.max(0, whole.getAsDouble() - own.getAsDouble()));
        });
  }

  private Optional<Volume> sum(
      YearMonth month, Service service, Function<UtilityBill, OptionalDouble> part) {
    double litres = 0;
    double days = 0;
    for (UtilityBill bill : bills) {
      double share = overlap(month, bill);
      if (bill.service() != service || share == 0) {
        continue;
      }
      OptionalDouble counted = part.apply(bill);
      if (counted.isPresent()) {
        litres += counted.getAsDouble() * share;
        days += share * ChronoUnit.DAYS.between(bill.from(), bill.to());
      }
    }
    return days >= month.lengthOfMonth() - 0.5
        ? Optional.of(Volume.ofLitres(litres))
        : Optional.empty();
  }

  /** Water of a whole bill; empty where its units or their size are not known. */
  private OptionalDouble litres(UtilityBill bill) {
    @Nullable BigDecimal units = bill.units();
    Optional<RateVersion> version =
        schedules.stream()
            .filter(schedule -> schedule.service() == bill.service())
            .findFirst()
            .flatMap(schedule -> schedule.findVersion(bill.from()));
    return units == null || version.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(Volume.of(units.doubleValue(), version.get().billingUnit()).litres());
  }

  private OptionalDouble towers(UtilityBill bill, Map<String, SystemFacts> facts) {
    Span days =
        Span.of(
            bill.from().atStartOfDay(zone).toInstant(), bill.to().atStartOfDay(zone).toInstant());
    double litres = 0;
    for (SystemFacts system : facts.values()) {
      Optional<Volume> makeup =
          MeteredWithin.sum(
              system.meters().stream().filter(m -> m.role() == MeterFacts.Role.MAKEUP).toList(),
              days);
      if (makeup.isEmpty()) {
        return OptionalDouble.empty();
      }
      litres += makeup.get().litres();
    }
    return facts.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(litres);
  }
}
