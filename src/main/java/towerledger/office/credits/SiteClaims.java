package towerledger.office.credits;

import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.account.Customers;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.meter.MeterRecords;
import towerledger.meter.RegisterReading;
import towerledger.quantity.Money;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.MeterRole;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.tariff.Claim;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.Schedules;
import towerledger.tariff.Service;
import towerledger.tariff.SiteUse;
import towerledger.tariff.TariffException;
import towerledger.tariff.TowerWater;
import towerledger.tariff.Usage;
import towerledger.tariff.UtilityBill;
import towerledger.tariff.UtilityBills;

/**
 * Claims of a site's year, one a sewer bill; where the utility's bills are not kept, one a calendar
 * month on the towers' own water. The ledger's months are shared among bills by their days. The
 * upper bound of evaporation is taken as wide as that of the expected makeup, of which it is the
 * larger part.
 */
@Component
class SiteClaims {

  private final Ledger ledger;
  private final Sites sites;
  private final Customers customers;
  private final Schedules schedules;
  private final UtilityBills bills;
  private final MeterRecords meters;

  SiteClaims(
      Ledger ledger,
      Sites sites,
      Customers customers,
      Schedules schedules,
      UtilityBills bills,
      MeterRecords meters) {
    this.ledger = ledger;
    this.sites = sites;
    this.customers = customers;
    this.schedules = schedules;
    this.bills = bills;
    this.meters = meters;
  }

  /**
   * The claims of a year.
   *
   * @param claims in order of their periods
   * @param trouble why there are none, or fewer than there might be; empty when nothing is amiss
   */
  record Year(List<Claim> claims, List<String> trouble) {}

  private record Period(
      LocalDate from, LocalDate to, @Nullable Volume water, @Nullable Money credited) {}

  Year of(Site site, int year, FigureText text) {
    Optional<RateSchedule> sewer =
        Optional.ofNullable(site.details().sewerSchedule()).flatMap(schedules::find);
    if (sewer.isEmpty()) {
      return new Year(List.of(), List.of("credits.no-schedule"));
    }
    List<CoolingSystem> systems = sites.listSystems(site);
    List<Claim> claims = new ArrayList<>();
    List<String> trouble = new ArrayList<>();
    var currency = customers.get(site.customerId()).currency();
    for (Period period : periods(site, year, currency)) {
      List<TowerWater> towers = new ArrayList<>();
      for (CoolingSystem system : systems) {
        towers.add(water(system, period));
      }
      double own =
          towers.stream()
              .map(TowerWater::makeup)
              .mapToDouble(makeup -> makeup == null ? 0 : makeup.litres())
              .sum();
      if (own == 0 && towers.stream().allMatch(tower -> tower.modelled() == null)) {
        continue;
      }
      Volume water = period.water();
      Double size = site.details().serviceMeterSizeMm();
      SiteUse use =
          SiteUse.of(
                  period.from(),
                  period.to(),
                  Usage.of(water == null ? Volume.ofLitres(own) : water))
              .withMeterSize(size == null ? null : MeterSize.ofMillimetres(size))
              .withTowers(towers);
      try {
        claims.add(
            Claim.of(
                site.code(),
                sewer.get(),
                water == null ? use.withTowersOwnWaterOnly() : use,
                evidence(site, systems, period, text),
                period.credited(),
                currency));
      } catch (TariffException e) {
        trouble.add(String.valueOf(e.getMessage()));
      }
    }
    return new Year(claims, trouble);
  }

  private List<Period> periods(Site site, int year, java.util.Currency currency) {
    LocalDate first = LocalDate.of(year, 1, 1);
    LocalDate end = first.plusYears(1);
    List<UtilityBill> known = bills.list(site, first, end);
    List<Period> periods = new ArrayList<>();
    for (UtilityBill bill : known) {
      if (bill.service() == Service.SEWER && bill.from().getYear() == year) {
        var credit = bill.creditAmount();
        periods.add(
            new Period(
                bill.from(),
                bill.to(),
                billed(site, known, bill),
                credit == null ? null : new Money(credit, currency)));
      }
    }
    if (periods.isEmpty()) {
      for (YearMonth month = YearMonth.of(year, 1);
          month.getYear() == year;
          month = month.plusMonths(1)) {
        periods.add(new Period(month.atDay(1), month.plusMonths(1).atDay(1), null, null));
      }
    }
    return periods;
  }

  /** The site's water in a sewer bill's days, from the water bill of the same days. */
  private @Nullable Volume billed(Site site, List<UtilityBill> known, UtilityBill sewerBill) {
    String code = site.details().waterSchedule();
    for (UtilityBill bill : known) {
      if (bill.service() == Service.WATER
          && bill.from().equals(sewerBill.from())
          && bill.to().equals(sewerBill.to())
          && bill.units() != null
          && code != null) {
        VolumeUnit unit =
            schedules
                .find(code)
                .flatMap(schedule -> schedule.findVersion(bill.from()))
                .map(version -> version.billingUnit())
                .orElse(null);
        if (unit != null) {
          return Volume.of(bill.units().doubleValue(), unit);
        }
      }
    }
    return null;
  }

  private TowerWater water(CoolingSystem system, Period period) {
    double makeup = 0;
    double blowdown = 0;
    double evaporated = 0;
    double upper = 0;
    boolean metered = true;
    boolean modelled = true;
    boolean any = false;
    boolean bleedMetered =
        sites.listMeters(List.of(system.id())).getOrDefault(system.id(), List.of()).stream()
            .anyMatch(meter -> meter.details().role() == MeterRole.BLOWDOWN);
    for (LedgerEntry row :
        ledger.list(
            system, YearMonth.from(period.from()), YearMonth.from(period.to().minusDays(1)))) {
      double share = share(row.month(), period);
      if (share <= 0) {
        continue;
      }
      any = true;
      var water = row.water();
      Double evaporation = water.evaporation();
      if (water.makeup() == null) {
        metered = false;
      } else {
        makeup += share * Math.max(0, water.makeup());
      }
      bleedMetered &= water.blowdown() != null;
      blowdown += share * Math.max(0, orZero(water.blowdown()));
      if (evaporation == null) {
        modelled = false;
      } else {
        double left = evaporation + orZero(water.drift());
        evaporated += share * Math.max(0, left);
        upper += share * Math.max(0, left * widening(row));
      }
    }
    TowerWater tower = TowerWater.of(system.code());
    if (!any) {
      return tower;
    }
    tower = metered ? tower.withMakeup(Volume.ofLitres(makeup)) : tower;
    tower = metered && bleedMetered ? tower.withBlowdown(Volume.ofLitres(blowdown)) : tower;
    return modelled
        ? tower.withModelled(Volume.ofLitres(evaporated), Volume.ofLitres(upper))
        : tower;
  }

  private static double widening(LedgerEntry row) {
    Double expected = row.water().expectedMakeup();
    Double high = row.water().expectedHigh();
    return expected == null || high == null || expected <= 0 ? 1 : high / expected;
  }

  private static double orZero(@Nullable Double value) {
    return value == null ? 0 : value;
  }

  /** Share of a month's days in a period. */
  private static double share(YearMonth month, Period period) {
    LocalDate start = month.atDay(1).isAfter(period.from()) ? month.atDay(1) : period.from();
    LocalDate next = month.plusMonths(1).atDay(1);
    LocalDate end = next.isBefore(period.to()) ? next : period.to();
    return Math.max(0, ChronoUnit.DAYS.between(start, end)) / (double) month.lengthOfMonth();
  }

  private List<Claim.Evidence> evidence(
      Site site, List<CoolingSystem> systems, Period period, FigureText text) {
    ZoneId zone = site.details().zone();
    Instant from = period.from().atStartOfDay(zone).toInstant();
    Instant to = period.to().atStartOfDay(zone).toInstant();
    List<Claim.Evidence> evidence = new ArrayList<>();
    for (CoolingSystem system : systems) {
      for (Meter meter :
          sites.listMeters(List.of(system.id())).getOrDefault(system.id(), List.of())) {
        List<RegisterReading> read = meters.listReadings(meter, Span.of(from, to.plusSeconds(1)));
        if (read.isEmpty()) {
          continue;
        }
        for (RegisterReading reading :
            read.size() == 1 ? read : List.of(read.get(0), read.get(read.size() - 1))) {
          evidence.add(
              new Claim.Evidence(
                  "%s (%s)".formatted(meter.code(), meter.details().role().code()),
                  reading.register().toPlainString() + " " + meter.details().unit(),
                  text.moment(reading.readAt(), zone)));
        }
      }
    }
    return evidence;
  }
}
