package towerledger.ledger;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.balance.MonthVerdict;
import towerledger.balance.VolumeEstimate;
import towerledger.balance.WaterFigures;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.SystemFacts;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.Service;
import towerledger.tariff.SiteUse;
import towerledger.tariff.TariffException;
import towerledger.tariff.TowerWater;
import towerledger.tariff.Usage;
import towerledger.tariff.UtilityBill;
import towerledger.tariff.WaterPrice;
import towerledger.tariff.WinterAverage;

/**
 * Prices the months of one site: every system's waste at the margin of the site's own bill, losses
 * on one bill sharing their joint difference, and the sewer credit the evaporated water deserves.
 */
final class SiteMoney {

  private final Currency currency;
  private final List<RateSchedule> schedules;
  private final @Nullable MeterSize meterSize;
  private final List<MeterFacts> serviceMeters;
  private final List<UtilityBill> bills;
  private final ZoneId zone;
  private final SharedBills shared;

  SiteMoney(
      Currency currency,
      List<RateSchedule> schedules,
      @Nullable MeterSize meterSize,
      List<MeterFacts> serviceMeters,
      List<UtilityBill> bills,
      ZoneId zone) {
    this.currency = currency;
    this.schedules = List.copyOf(schedules);
    this.meterSize = meterSize;
    this.serviceMeters = List.copyOf(serviceMeters);
    this.bills = List.copyOf(bills);
    this.zone = zone;
    this.shared = new SharedBills(this.bills, this.schedules, zone);
  }

  /**
   * Money of one system's month.
   *
   * @param money the amounts
   * @param working how they came about, line by line
   */
  record Priced(LedgerMoney money, List<String> working) {}

  /**
   * Prices one month of all systems of the site together.
   *
   * @param verdicts the month's verdict of each system, by its code
   * @param facts facts of each system, by its code
   * @return money of each system, by its code
   */
  Map<String, Priced> price(
      YearMonth month, Map<String, MonthVerdict> verdicts, Map<String, SystemFacts> facts) {
    if (schedules.isEmpty()) {
      return unknown(verdicts, "no rate schedule is known for the site: name water_schedule");
    }
    try {
      return priceKnown(month, verdicts, facts);
    } catch (TariffException e) {
      return unknown(verdicts, String.valueOf(e.getMessage()));
    }
  }

  private Map<String, Priced> unknown(Map<String, MonthVerdict> verdicts, String why) {
    Map<String, Priced> priced = new LinkedHashMap<>();
    for (String system : verdicts.keySet()) {
      priced.put(system, new Priced(LedgerMoney.unknown(currency), List.of("not priced: " + why)));
    }
    return priced;
  }

  private Map<String, Priced> priceKnown(
      YearMonth month, Map<String, MonthVerdict> verdicts, Map<String, SystemFacts> facts) {
    List<TowerWater> towers =
        verdicts.entrySet().stream()
            .map(entry -> water(entry.getKey(), entry.getValue(), facts.get(entry.getKey())))
            .toList();
    SiteUse use = use(month, verdicts, facts);
    SiteUse claimed = claimsCredit() ? use.withTowers(towers) : use;
    Map<String, BigDecimal> losses = losses(claimed, verdicts, VolumeEstimate::value);
    Map<String, BigDecimal> low = losses(claimed, verdicts, VolumeEstimate::low);
    Map<String, BigDecimal> high = losses(claimed, verdicts, VolumeEstimate::high);
    SewerCredit credit = new SewerCredit(schedules, currency);
    Map<String, BigDecimal> due = new LinkedHashMap<>();
    Map<String, BigDecimal> claimable = new LinkedHashMap<>();
    for (TowerWater tower : towers) {
      String system = tower.system();
      MonthVerdict verdict = Objects.requireNonNull(verdicts.get(system));
      Volume expected = verdict.water().expectedMakeup().map(VolumeEstimate::value).orElse(null);
      credit
          .of(use, tower, expected)
          .ifPresent(
              amount -> {
                due.put(system, amount);
                if (tower.makeup() != null) {
                  claimable.put(system, amount);
                }
              });
    }
    Map<String, BigDecimal> given = creditsGiven(month, verdicts.keySet(), claimable);
    Map<String, Priced> priced = new LinkedHashMap<>();
    for (var entry : verdicts.entrySet()) {
      String system = entry.getKey();
      List<String> working = new ArrayList<>();
      working.add(basis(use));
      priced.put(
          system,
          new Priced(
              new LedgerMoney(
                  currency,
                  losses.get(system),
                  low.get(system),
                  high.get(system),
                  expected(use, entry.getValue(), system).orElse(null),
                  due.get(system),
                  given.get(system)),
              working));
    }
    return priced;
  }

  private String basis(SiteUse use) {
    return "priced under %s on %.0f L of %s"
        .formatted(
            String.join(" and ", schedules.stream().map(RateSchedule::code).toList()),
            use.water().volume().litres(),
            use.wholeSite()
                ? "the whole site's use"
                : "the systems' own makeup, since no more of the site's use is known");
  }

  /** Shares of the joint difference; empty where no volume is known, zero where nothing is lost. */
  private Map<String, BigDecimal> losses(
      SiteUse use, Map<String, MonthVerdict> verdicts, Function<VolumeEstimate, Volume> bound) {
    Map<String, BigDecimal> amounts = new LinkedHashMap<>();
    List<WaterPrice.Loss> losses = new ArrayList<>();
    for (var entry : verdicts.entrySet()) {
      Optional<VolumeEstimate> loss = entry.getValue().water().loss();
      if (loss.isEmpty()) {
        continue;
      }
      double litres = Math.max(0, bound.apply(loss.get()).litres());
      amounts.put(entry.getKey(), BigDecimal.ZERO.setScale(2));
      if (litres > 0) {
        Cause cause = entry.getValue().judgement().likeliest().cause();
        losses.add(
            new WaterPrice.Loss(
                cause.code(), entry.getKey(), Volume.ofLitres(litres), path(cause)));
      }
    }
    if (!losses.isEmpty()) {
      for (var share : WaterPrice.marginal(schedules, use, losses, currency).shares()) {
        amounts.put(share.loss().system(), share.share().amount());
      }
    }
    return amounts;
  }

  private static WaterPrice.Loss.Path path(Cause cause) {
    return switch (cause) {
      case BLOWDOWN_STUCK_OPEN, LOW_CYCLES -> WaterPrice.Loss.Path.THROUGH_BLOWDOWN_METER;
      case MAKEUP_LINE_LEAK, BASIN_LEAK, DRIFT_EXCESS -> WaterPrice.Loss.Path.TO_GROUND;
      default -> WaterPrice.Loss.Path.TO_DRAIN;
    };
  }

  private Optional<BigDecimal> expected(SiteUse use, MonthVerdict verdict, String system) {
    return verdict
        .water()
        .expectedMakeup()
        .map(
            estimate ->
                new WaterPrice.Loss(
                    "expected water",
                    system,
                    Volume.ofLitres(Math.max(0, estimate.value().litres())),
                    WaterPrice.Loss.Path.TO_DRAIN))
        .map(loss -> WaterPrice.marginal(schedules, use, List.of(loss), currency).joint().amount());
  }

  private boolean claimsCredit() {
    return bills.stream()
        .anyMatch(bill -> bill.creditAmount() != null && bill.creditAmount().signum() > 0);
  }

  /**
   * Credits on the utility's bills, by days; empty where no sewer bill of the month tells of one.
   */
  private Map<String, BigDecimal> creditsGiven(
      YearMonth month, Set<String> systems, Map<String, BigDecimal> due) {
    BigDecimal sum = BigDecimal.ZERO;
    boolean told = false;
    for (UtilityBill bill : bills) {
      double share = SharedBills.overlap(month, bill);
      if (share > 0 && bill.service() == Service.SEWER && bill.creditAmount() != null) {
        told = true;
        sum = sum.add(bill.creditAmount().multiply(BigDecimal.valueOf(share)));
      }
    }
    if (!told) {
      return Map.of();
    }
    return CreditShares.of(sum, systems, due);
  }

  private SiteUse use(
      YearMonth month, Map<String, MonthVerdict> verdicts, Map<String, SystemFacts> facts) {
    LocalDate first = month.atDay(1);
    LocalDate end = month.plusMonths(1).atDay(1);
    double own =
        verdicts.values().stream().map(MonthVerdict::water).mapToDouble(SiteMoney::ownWater).sum();
    Optional<Volume> metered = metered(month);
    // A bill of two months shared out by days may give a month less than its towers took.
    Optional<Volume> whole =
        metered
            .or(() -> shared.counted(month, Service.WATER))
            .filter(volume -> volume.litres() >= own);
    if (whole.isEmpty() && metered.isEmpty()) {
      whole = shared.besideTowers(month, facts).map(rest -> Volume.ofLitres(own + rest.litres()));
    }
    SiteUse use =
        SiteUse.of(first, end, Usage.of(whole.orElse(Volume.ofLitres(own))))
            .withMeterSize(meterSize);
    SiteUse known =
        use.withReturnMeter(shared.counted(month, Service.SEWER).map(Usage::of).orElse(null))
            .withWinterAverage(WinterAverage.find(schedules, bills, first).orElse(null));
    return whole.isPresent() ? known : known.withTowersOwnWaterOnly();
  }

  private static double ownWater(WaterFigures water) {
    return water
        .makeup()
        .or(water::expectedMakeup)
        .map(estimate -> Math.max(0, estimate.value().litres()))
        .orElse(0.0);
  }

  private Optional<Volume> metered(YearMonth month) {
    Span span = CalendarMonth.of(month, zone).span();
    return MeteredWithin.sum(serviceMeters, span);
  }

  private static TowerWater water(
      String system, MonthVerdict verdict, @Nullable SystemFacts facts) {
    WaterFigures figures = verdict.water();
    TowerWater tower = TowerWater.of(system);
    if (figures.makeup().isPresent()) {
      // What others drew behind the makeup meter never reached the tower.
      Volume other = figures.otherUse().orElse(Volume.ZERO);
      tower = tower.withMakeup(notNegative(figures.makeup().get().value().minus(other)));
    }
    boolean bleedMetered =
        facts != null
            && facts.meters().stream().anyMatch(m -> m.role() == MeterFacts.Role.BLOWDOWN);
    if (bleedMetered && figures.blowdown().isPresent()) {
      tower = tower.withBlowdown(notNegative(figures.blowdown().get()));
    }
    if (facts != null) {
      Span span = CalendarMonth.of(verdict.month(), facts.zone()).span();
      List<MeterFacts> credit =
          facts.meters().stream().filter(m -> m.role() == MeterFacts.Role.CREDIT).toList();
      Optional<Volume> credited = MeteredWithin.sum(credit, span);
      if (credited.isPresent()) {
        tower = tower.withCreditMeter(credited.get());
      }
    }
    if (figures.evaporation().isPresent()) {
      double drift = figures.drift().map(Volume::litres).orElse(0.0);
      VolumeEstimate evaporation = figures.evaporation().get();
      tower =
          tower.withModelled(
              notNegative(Volume.ofLitres(evaporation.value().litres() + drift)),
              notNegative(Volume.ofLitres(evaporation.high().litres() + drift)));
    }
    return tower;
  }

  private static Volume notNegative(Volume volume) {
    return volume.litres() < 0 ? Volume.ZERO : volume;
  }

  /** Words on what a month was priced by, for the digest of its inputs. */
  String inputs(YearMonth month) {
    StringBuilder words = new StringBuilder(currency.getCurrencyCode()).append(meterSize);
    for (RateSchedule schedule : schedules) {
      words.append(schedule.code()).append(schedule.findVersion(month.atEndOfMonth()));
    }
    bills.stream().filter(bill -> SharedBills.overlap(month, bill) > 0).forEach(words::append);
    metered(month).ifPresent(words::append);
    WinterAverage.find(schedules, bills, month.atDay(1)).ifPresent(words::append);
    return words.toString();
  }
}
