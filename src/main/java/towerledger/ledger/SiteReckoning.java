package towerledger.ledger;

import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import towerledger.account.Customers;
import towerledger.balance.MonthVerdict;
import towerledger.balance.Reconciler;
import towerledger.balance.ReconciliationPolicy;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.SystemFacts;
import towerledger.meter.MeterNetwork;
import towerledger.meter.MeterRecords;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.site.CoolingSystem;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.Schedules;
import towerledger.tariff.UtilityBills;
import towerledger.weather.WeatherRecords;

/**
 * Reckons the months of one site: gathers the facts, judges each system, prices all of them on the
 * site's one bill, and appends what differs from what stands.
 */
@Component
class SiteReckoning {

  /** Facts this much older than the first month wanted still calibrate a system. */
  private static final int MONTHS_OF_HISTORY = 24;

  private final Sites sites;
  private final Customers customers;
  private final FactGatherer gatherer;
  private final MeterRecords meterRecords;
  private final Schedules schedules;
  private final UtilityBills utilityBills;
  private final Revisions revisions;
  private final ApplicationEventPublisher events;
  private final Clock clock;
  private final Reconciler reconciler = new Reconciler(ReconciliationPolicy.standard());

  SiteReckoning(
      Sites sites,
      Customers customers,
      FactGatherer gatherer,
      MeterRecords meterRecords,
      Schedules schedules,
      UtilityBills utilityBills,
      Revisions revisions,
      ApplicationEventPublisher events,
      Clock clock) {
    this.sites = sites;
    this.customers = customers;
    this.gatherer = gatherer;
    this.meterRecords = meterRecords;
    this.schedules = schedules;
    this.utilityBills = utilityBills;
    this.revisions = revisions;
    this.events = events;
    this.clock = clock;
  }

  /**
   * Reckons a site from a month on.
   *
   * @param siteId the site
   * @param first first month touched; null for all there are
   * @param reason why, for the revisions
   * @param upgradeOrdered whether a newer model may restate closed months
   * @param stations stations read so far in this piece of work
   * @return how many revisions were appended
   */
  int reckon(
      long siteId,
      @Nullable YearMonth first,
      String reason,
      boolean upgradeOrdered,
      WeatherRecords.Reading stations) {
    Site site = sites.findSite(siteId).orElseThrow();
    List<CoolingSystem> systems = sites.listSystems(site);
    ZoneId zone = site.details().zone();
    Instant now = clock.instant();
    YearMonth gatherFrom =
        first == null ? Ledger.FIRST_MONTH : first.minusMonths(MONTHS_OF_HISTORY);
    Instant gatherStart = CalendarMonth.of(gatherFrom, zone).span().startInclusive();
    if (first != null && !CalendarMonth.of(first, zone).span().startInclusive().isBefore(now)) {
      return 0; // a setting or reading dated ahead: its months come with the calendar
    }
    Span span = Span.of(gatherStart, now.plusSeconds(1));
    Map<Long, SystemFacts> facts = gatherer.gather(site, systems, span, stations);
    var byMonth = new TreeMap<YearMonth, Map<String, MonthVerdict>>();
    var factsByCode = new HashMap<String, SystemFacts>();
    for (CoolingSystem system : systems) {
      SystemFacts known = facts.get(system.id());
      if (known == null) {
        continue;
      }
      factsByCode.put(system.code(), known);
      for (MonthVerdict verdict : judge(known, first, now)) {
        byMonth
            .computeIfAbsent(verdict.month(), month -> new TreeMap<>())
            .put(system.code(), verdict);
      }
    }
    if (byMonth.isEmpty()) {
      return 0;
    }
    SiteMoney money = money(site, span);
    List<NewRevision> fresh = new ArrayList<>();
    HeatText heatText = new HeatText();
    byMonth.forEach(
        (month, verdicts) -> {
          var priced = money.price(month, verdicts, factsByCode);
          String inputs = money.inputs(month);
          for (CoolingSystem system : systems) {
            MonthVerdict verdict = verdicts.get(system.code());
            if (verdict != null) {
              fresh.add(
                  revision(
                      site,
                      system,
                      verdict,
                      Objects.requireNonNull(priced.get(system.code())),
                      MonthFacts.digest(
                          Objects.requireNonNull(factsByCode.get(system.code())),
                          month,
                          inputs,
                          heatText),
                      LedgerStatus.byCalendar(month, zone, now)));
            }
          }
        });
    var standing =
        revisions.standing(systems.stream().map(CoolingSystem::id).toList(), byMonth.firstKey());
    int written = revisions.append(fresh, standing, reason, upgradeOrdered);
    if (written > 0) {
      events.publishEvent(new MonthsReckoned(siteId));
    }
    return written;
  }

  private List<MonthVerdict> judge(SystemFacts facts, @Nullable YearMonth first, Instant now) {
    Optional<YearMonth> earliest = MonthFacts.findFirst(facts);
    Optional<YearMonth> latest = MonthFacts.findLast(facts, now);
    if (earliest.isEmpty() || latest.isEmpty()) {
      return List.of();
    }
    YearMonth from =
        first == null
            ? earliest.get()
            : Stream.of(first, earliest.get()).max(Comparator.naturalOrder()).orElseThrow();
    return latest.get().isBefore(from) ? List.of() : reconciler.judge(facts, from, latest.get());
  }

  private SiteMoney money(Site site, Span span) {
    List<RateSchedule> known =
        Stream.of(site.details().waterSchedule(), site.details().sewerSchedule())
            .filter(Objects::nonNull)
            .flatMap(code -> schedules.find(code).stream())
            .toList();
    Double size = site.details().serviceMeterSizeMm();
    List<MeterFacts> serviceMeters =
        meterRecords
            .records(MeterNetwork.of(sites.listServiceMeters(site), List.of()).counted(), span)
            .values()
            .stream()
            .map(record -> record.facts())
            .toList();
    ZoneId zone = site.details().zone();
    return new SiteMoney(
        customers.get(site.customerId()).currency(),
        known,
        size == null ? null : MeterSize.ofMillimetres(size),
        serviceMeters,
        utilityBills.list(
            site,
            span.startInclusive().atZone(zone).toLocalDate(),
            span.endExclusive().atZone(zone).toLocalDate().plusDays(1)),
        zone);
  }

  private static NewRevision revision(
      Site site,
      CoolingSystem system,
      MonthVerdict verdict,
      SiteMoney.Priced priced,
      String inputHash,
      LedgerStatus status) {
    return new NewRevision(
        site.customerId(),
        site.id(),
        system.id(),
        verdict.month(),
        status,
        Reconciler.MODEL_VERSION,
        inputHash,
        verdict.grade(),
        LedgerWater.of(verdict.water()),
        LedgerVerdict.of(verdict.judgement()),
        priced.money(),
        MonthWorking.of(verdict, priced.working()));
  }
}
