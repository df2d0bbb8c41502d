package towerledger.ledger;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Currency;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Customers;
import towerledger.balance.VolumeEstimate;
import towerledger.meter.MeterNetwork;
import towerledger.meter.MeterRecords;
import towerledger.quantity.Money;
import towerledger.quantity.Span;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.tariff.BillCheck;
import towerledger.tariff.Claim;
import towerledger.tariff.CreditRule;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.TariffException;
import towerledger.tariff.UtilityBill;
import towerledger.tariff.UtilityBills;
import towerledger.tariff.WinterAverage;

/**
 * A site's utility bills held against its meters and schedules, and the sewer credit of each bill
 * claimed, all from what the ledger knows.
 */
@Service
@Transactional(readOnly = true)
public class SiteBills {

  /** No bill is taken from before it. */
  public static final LocalDate FIRST_DAY = Ledger.FIRST_MONTH.atDay(1);

  /** No bill is taken from after it. */
  public static final LocalDate LAST_DAY = LocalDate.of(2200, 1, 1);

  /** Readings up to so many days from a bill's ends belong to its working. */
  private static final int DAYS_AROUND = 62;

  private final Sites sites;
  private final Customers customers;
  private final MeterRecords meters;
  private final towerledger.tariff.Schedules schedules;
  private final UtilityBills bills;
  private final Ledger ledger;

  SiteBills(
      Sites sites,
      Customers customers,
      MeterRecords meters,
      towerledger.tariff.Schedules schedules,
      UtilityBills bills,
      Ledger ledger) {
    this.sites = sites;
    this.customers = customers;
    this.meters = meters;
    this.schedules = schedules;
    this.bills = bills;
    this.ledger = ledger;
  }

  /**
   * One bill checked.
   *
   * @param bill the bill
   * @param check what it is off by; null when it cannot be checked, and the notes say why
   * @param notes what limits the check
   */
  public record Checked(UtilityBill bill, @Nullable BillCheck check, List<String> notes) {}

  /**
   * The credit of one sewer bill.
   *
   * @param bill the bill
   * @param claim the claim; null when there is none to make, and the notes say why
   * @param notes what limits the claim
   */
  public record Claimed(UtilityBill bill, @Nullable Claim claim, List<String> notes) {}

  /** Checks every bill of a site that bills any of the days, by service and first day. */
  public List<Checked> listChecks(Site site, LocalDate from, LocalDate to) {
    Book book = open(site);
    return bills.list(site, from, to).stream().map(book::check).toList();
  }

  /** The claims of every sewer bill of a site that bills any of the days. */
  public List<Claimed> listClaims(Site site, LocalDate from, LocalDate to) {
    Book book = open(site);
    return bills.list(site, from, to).stream()
        .filter(bill -> bill.service() == towerledger.tariff.Service.SEWER)
        .map(book::claim)
        .toList();
  }

  private Book open(Site site) {
    List<RateSchedule> known =
        Stream.of(site.details().waterSchedule(), site.details().sewerSchedule())
            .filter(Objects::nonNull)
            .flatMap(code -> schedules.find(code).stream())
            .toList();
    return new Book(
        site,
        known,
        bills.list(site, FIRST_DAY, LAST_DAY),
        customers.get(site.customerId()).currency());
  }

  /** What is known of a site while its bills are looked through. */
  private final class Book {

    private final Site site;
    private final ZoneId zone;
    private final List<RateSchedule> rates;
    private final List<UtilityBill> allBills;
    private final Currency currency;
    private final Map<CoolingSystem, List<Meter>> metersOf = new LinkedHashMap<>();
    private final List<Meter> service;

    Book(Site site, List<RateSchedule> rates, List<UtilityBill> allBills, Currency currency) {
      this.site = site;
      this.zone = site.details().zone();
      this.rates = rates;
      this.allBills = allBills;
      this.currency = currency;
      List<CoolingSystem> systems = sites.listSystems(site);
      var byId = sites.listMeters(systems.stream().map(CoolingSystem::id).toList());
      systems.forEach(system -> metersOf.put(system, byId.getOrDefault(system.id(), List.of())));
      List<Meter> all = sites.listServiceMeters(site);
      this.service = MeterNetwork.of(all, List.of()).counted();
      metersOf.replaceAll((system, own) -> MeterNetwork.of(own, all).counted());
    }

    Checked check(UtilityBill bill) {
      List<String> notes = new ArrayList<>();
      Optional<RateSchedule> schedule = schedule(bill);
      if (schedule.isEmpty()) {
        return new Checked(bill, null, List.of(noSchedule(bill)));
      }
      BilledWater water = water(bill);
      if (bill.service() == towerledger.tariff.Service.WATER && water.metered().isEmpty()) {
        notes.add("no readings of a service meter enclose these days; the units are not checked");
      }
      try {
        return new Checked(
            bill,
            BillCheck.of(
                bill,
                schedule.get(),
                water.use(bill, rates, meterSize(), winterAverage(bill)),
                bill.service() == towerledger.tariff.Service.WATER
                    ? water.metered().orElse(null)
                    : null,
                currency),
            notes);
      } catch (TariffException e) {
        notes.add(String.valueOf(e.getMessage()));
        return new Checked(bill, null, notes);
      }
    }

    Claimed claim(UtilityBill bill) {
      Optional<RateSchedule> schedule = schedule(bill);
      if (schedule.isEmpty()) {
        return new Claimed(bill, null, List.of(noSchedule(bill)));
      }
      boolean credits =
          schedule
              .get()
              .findVersion(bill.from())
              .filter(version -> version.credit().method() != CreditRule.Method.NONE)
              .isPresent();
      if (!credits) {
        return new Claimed(
            bill,
            null,
            List.of(
                "schedule %s gives no evaporation credit on %s"
                    .formatted(schedule.get().code(), bill.from())));
      }
      BilledWater water = water(bill);
      try {
        return new Claimed(
            bill,
            Claim.of(
                site.code(),
                schedule.get(),
                water.use(bill, rates, meterSize(), winterAverage(bill)),
                water.evidence(),
                bill.creditAmount() == null ? null : Money.of(bill.creditAmount(), currency),
                currency),
            water.notes());
      } catch (TariffException e) {
        return new Claimed(bill, null, List.of(String.valueOf(e.getMessage())));
      }
    }

    private towerledger.tariff.@Nullable Usage winterAverage(UtilityBill bill) {
      return WinterAverage.find(rates, allBills, bill.from()).orElse(null);
    }

    private Optional<RateSchedule> schedule(UtilityBill bill) {
      return rates.stream().filter(s -> s.service() == bill.service()).findFirst();
    }

    private String noSchedule(UtilityBill bill) {
      return "site %s names no %s schedule that is kept; set %s_schedule and load its rates"
          .formatted(site.code(), bill.service().code(), bill.service().code());
    }

    private @Nullable MeterSize meterSize() {
      Double size = site.details().serviceMeterSizeMm();
      return size == null ? null : MeterSize.ofMillimetres(size);
    }

    private BilledWater water(UtilityBill bill) {
      Span billed =
          Span.of(
              bill.from().atStartOfDay(zone).toInstant(), bill.to().atStartOfDay(zone).toInstant());
      Span around =
          Span.of(
              bill.from().minusDays(DAYS_AROUND).atStartOfDay(zone).toInstant(),
              bill.to().plusDays(DAYS_AROUND).atStartOfDay(zone).toInstant());
      Map<String, BilledWater.OfSystem> systems = new LinkedHashMap<>();
      YearMonth first = YearMonth.from(bill.from());
      YearMonth last = YearMonth.from(bill.to().minusDays(1));
      metersOf.forEach(
          (system, own) ->
              systems.put(
                  system.code(),
                  new BilledWater.OfSystem(
                      List.copyOf(meters.records(own, around).values()),
                      reads(own, around),
                      ledger.list(system, first, last),
                      evaporation(system, first, last))));
      return new BilledWater(
          bill,
          billed,
          zone,
          List.copyOf(meters.records(service, around).values()),
          reads(service, around),
          systems);
    }

    private Map<YearMonth, VolumeEstimate> evaporation(
        CoolingSystem system, YearMonth first, YearMonth last) {
      Map<YearMonth, VolumeEstimate> bounds = new HashMap<>();
      for (LedgerEntry row : ledger.list(system, first, last)) {
        ledger
            .findWorking(system, row.month(), row.revision())
            .map(MonthWorking::evaporation)
            .ifPresent(bound -> bounds.put(row.month(), bound));
      }
      return bounds;
    }

    private List<BilledWater.Read> reads(List<Meter> of, Span around) {
      return of.stream()
          .flatMap(
              meter ->
                  meters.listReadings(meter, around).stream()
                      .map(reading -> new BilledWater.Read(meter, reading)))
          .toList();
    }
  }
}
