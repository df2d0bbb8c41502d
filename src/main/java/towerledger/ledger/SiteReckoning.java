package towerledger.ledger;

import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
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
import towerledger.balance.facts.SystemFacts;
import towerledger.meter.MeterNetwork;
import towerledger.meter.MeterRecord;
import towerledger.meter.MeterRecords;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.Schedules;
import towerledger.tariff.UtilityBills;
import towerledger.weather.WeatherRecords;

/**
 * Reckons the months of sites: gathers the facts, judges each system, prices all systems of a site
 * on its one bill, and appends what differs from what stands.
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
   * Reckons some sites from a month on: what is asked of the database is asked once for all of
   * them.
   *
   * @param siteIds the sites
   * @param first first month touched; null for all there are
   * @param reason why, for the revisions
   * @param upgradeOrdered whether a newer model may restate closed months
   * @param stations stations read so far in this piece of work
   * @return how many revisions were appended
   */
  int reckon(
      Collection<Long> siteIds,
      @Nullable YearMonth first,
      String reason,
      boolean upgradeOrdered,
      WeatherRecords.Reading stations) {
    Instant now = clock.instant();
    var systemsOf = sites.listSystemsOf(siteIds);
    // Sites of one zone begin their months together, and are asked for together.
    Map<Span, Map<Site, List<CoolingSystem>>> bySpan = new LinkedHashMap<>();
    for (Site site : sites.listSites(siteIds)) {
      ZoneId zone = site.details().zone();
      if (first == null || begin(first, zone).isBefore(now)) {
        YearMonth from = first == null ? Ledger.FIRST_MONTH : first.minusMonths(MONTHS_OF_HISTORY);
        bySpan
            .computeIfAbsent(
                Span.of(begin(from, zone), now.plusSeconds(1)), span -> new LinkedHashMap<>())
            .put(site, systemsOf.getOrDefault(site.id(), List.of()));
      } // else a setting or reading dated ahead: its months come with the calendar
    }
    List<NewRevision> fresh = new ArrayList<>();
    MonthDigests digests = new MonthDigests();
    bySpan.forEach(
        (span, together) -> {
          Map<Long, SystemFacts> facts = gatherer.gather(together, span, stations);
          var books = new Books(together.keySet(), span);
          together.forEach(
              (site, systems) ->
                  fresh.addAll(months(site, systems, facts, books, digests, first, now)));
        });
    if (fresh.isEmpty()) {
      return 0;
    }
    var standing =
        revisions.standing(
            fresh.stream().map(NewRevision::systemId).distinct().toList(),
            fresh.stream().map(NewRevision::month).min(Comparator.naturalOrder()).orElseThrow());
    int written = revisions.append(fresh, standing, reason, upgradeOrdered).size();
    // Also where no figure changed: a repair that was logged is news of what follows from them.
    fresh.stream()
        .map(NewRevision::siteId)
        .distinct()
        .forEach(site -> events.publishEvent(new MonthsReckoned(site)));
    return written;
  }

  private static Instant begin(YearMonth month, ZoneId zone) {
    return CalendarMonth.of(month, zone).span().startInclusive();
  }

  private List<NewRevision> months(
      Site site,
      List<CoolingSystem> systems,
      Map<Long, SystemFacts> facts,
      Books books,
      MonthDigests digests,
      @Nullable YearMonth first,
      Instant now) {
    var byMonth = new TreeMap<YearMonth, Map<String, MonthVerdict>>();
    var factsByCode = new HashMap<String, SystemFacts>();
    var digestsByCode = new HashMap<String, MonthDigests.OfSystem>();
    for (CoolingSystem system : systems) {
      SystemFacts known = facts.get(system.id());
      if (known == null) {
        continue;
      }
      factsByCode.put(system.code(), known);
      digestsByCode.put(system.code(), digests.of(known));
      for (MonthVerdict verdict : judge(known, first, now)) {
        byMonth
            .computeIfAbsent(verdict.month(), month -> new TreeMap<>())
            .put(system.code(), verdict);
      }
    }
    List<NewRevision> fresh = new ArrayList<>();
    if (byMonth.isEmpty()) {
      return fresh;
    }
    SiteMoney money = books.of(site);
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
                      Objects.requireNonNull(digestsByCode.get(system.code()))
                          .digest(month, inputs),
                      LedgerStatus.byCalendar(month, site.details().zone(), now)));
            }
          }
        });
    return fresh;
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

  /** What some sites are billed by. */
  private final class Books {

    private final Span span;
    private final Map<Long, List<Meter>> serviceMeters;
    private final Map<Long, MeterRecord> records;
    private final Map<String, Optional<RateSchedule>> rates = new HashMap<>();

    Books(Collection<Site> ofSites, Span span) {
      this.span = span;
      serviceMeters =
          new HashMap<>(sites.listServiceMetersOf(ofSites.stream().map(Site::id).toList()));
      serviceMeters.replaceAll((site, meters) -> MeterNetwork.of(meters, List.of()).counted());
      records =
          meterRecords.records(
              serviceMeters.values().stream().flatMap(List::stream).toList(), span);
    }

    SiteMoney of(Site site) {
      ZoneId zone = site.details().zone();
      Double size = site.details().serviceMeterSizeMm();
      return new SiteMoney(
          customers.get(site.customerId()).currency(),
          Stream.of(site.details().waterSchedule(), site.details().sewerSchedule())
              .filter(Objects::nonNull)
              .flatMap(code -> rates.computeIfAbsent(code, schedules::find).stream())
              .toList(),
          size == null ? null : MeterSize.ofMillimetres(size),
          serviceMeters.getOrDefault(site.id(), List.of()).stream()
              .map(meter -> Objects.requireNonNull(records.get(meter.id())).facts())
              .toList(),
          utilityBills.list(
              site,
              span.startInclusive().atZone(zone).toLocalDate(),
              span.endExclusive().atZone(zone).toLocalDate().plusDays(1)),
          zone);
    }
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
