package towerledger.site;

import java.time.Clock;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.EmptyValues;
import towerledger.account.Outcome;

/**
 * Adds and changes sites, systems, towers and meters by their codes. Every change goes into the
 * history; every change that bears on figures is published as {@link FactsChanged}. Who may see a
 * thing is {@link SiteAccess}'s business, not this class's.
 */
@Service
@Transactional
public class Sites {

  private final SiteRepository sites;
  private final SystemRepository systems;
  private final TowerRepository towers;
  private final MeterRepository meters;
  private final ChangeHistory history;
  private final ApplicationEventPublisher events;
  private final Clock clock;

  Sites(
      SiteRepository sites,
      SystemRepository systems,
      TowerRepository towers,
      MeterRepository meters,
      ChangeHistory history,
      ApplicationEventPublisher events,
      Clock clock) {
    this.sites = sites;
    this.systems = systems;
    this.towers = towers;
    this.meters = meters;
    this.history = history;
    this.events = events;
    this.clock = clock;
  }

  /**
   * Adds a site or updates what is known of it.
   *
   * @throws MoveRefusedException when the site belongs to another customer
   */
  public Outcome putSite(
      Actor actor, String code, long customerId, SiteDetails details, EmptyValues empty) {
    var found = sites.findByCode(code);
    if (found.isEmpty()) {
      sites.save(new Site(code, customerId, details, clock.instant()));
      history.record(actor, "added", "site", code, customerId, null, details);
      return Outcome.ADDED;
    }
    Site site = found.get();
    if (site.customerId() != customerId) {
      throw new MoveRefusedException("site", code, "customer");
    }
    SiteDetails before = site.details();
    SiteDetails after = empty.over(before, details, SiteDetails::updatedBy);
    if (after.equals(before)) {
      return Outcome.UNCHANGED;
    }
    site.change(after);
    history.record(actor, "changed", "site", code, customerId, before, after);
    var touched =
        systems.findBySiteIdOrderByCode(site.id()).stream()
            .map(system -> new FactsChanged.Touched(system.id(), null, null))
            .toList();
    if (!touched.isEmpty()) {
      events.publishEvent(new FactsChanged(touched, "site " + code + " changed"));
    }
    return Outcome.CHANGED;
  }

  /**
   * Adds a system or updates what is known of it.
   *
   * @throws UnknownCodeException when there is no such site
   * @throws MoveRefusedException when the system belongs to another site
   * @throws IllegalArgumentException when a tower of another system has this code
   */
  public Outcome putSystem(
      Actor actor, String code, String siteCode, SystemDetails details, EmptyValues empty) {
    Site site = getSite(siteCode);
    var found = systems.findByCode(code);
    if (found.isEmpty()) {
      if (towers.findByCode(code).isPresent()) {
        throw new IllegalArgumentException(
            "code '%s' is that of a tower of another system, and a tower's code stands for its system; give the system another code"
                .formatted(code));
      }
      addSystem(actor, code, site, details, false);
      return Outcome.ADDED;
    }
    requireSameSite(found.get(), site);
    return change(actor, found.get(), details, empty);
  }

  private CoolingSystem addSystem(
      Actor actor, String code, Site site, SystemDetails details, boolean ownTower) {
    var system = systems.save(new CoolingSystem(code, site, details, ownTower, clock.instant()));
    history.record(actor, "added", "system", code, site.customerId(), null, details);
    return system;
  }

  private Outcome change(
      Actor actor, CoolingSystem system, SystemDetails details, EmptyValues empty) {
    SystemDetails before = system.details();
    SystemDetails after = empty.over(before, details, SystemDetails::updatedBy);
    if (after.equals(before)) {
      return Outcome.UNCHANGED;
    }
    system.change(after);
    history.record(actor, "changed", "system", system.code(), system.customerId(), before, after);
    events.publishEvent(FactsChanged.always(system.id(), "system " + system.code() + " changed"));
    return Outcome.CHANGED;
  }

  private static void requireSameSite(CoolingSystem system, Site site) {
    if (system.siteId() != site.id()) {
      throw new MoveRefusedException("system", system.code(), "site");
    }
  }

  /**
   * Adds a tower or updates what is known of it.
   *
   * @param systemCode the system it belongs to; null makes it a system of its own, with its code
   * @param own what the row says of that own system; ignored when {@code systemCode} is given
   * @throws UnknownCodeException when there is no such site or system
   * @throws MoveRefusedException when the tower belongs to another system
   * @throws IllegalArgumentException when another system has this code
   */
  public Outcome putTower(
      Actor actor,
      String code,
      String siteCode,
      @Nullable String systemCode,
      Nameplate nameplate,
      SystemDetails own,
      EmptyValues empty) {
    Site site = getSite(siteCode);
    Outcome systemOutcome = Outcome.UNCHANGED;
    CoolingSystem system;
    if (systemCode != null && !systemCode.equals(code)) {
      system =
          systems
              .findByCode(systemCode)
              .orElseThrow(() -> new UnknownCodeException("system", systemCode));
      requireSameSite(system, site);
    } else {
      var found = systems.findByCode(code);
      if (found.isPresent()) {
        system = found.get();
        requireSameSite(system, site);
        systemOutcome = change(actor, system, ownName(system, code, own), empty);
      } else {
        system = addSystem(actor, code, site, own, true);
      }
    }
    Outcome towerOutcome = putTower(actor, code, system, nameplate, empty);
    return towerOutcome == Outcome.UNCHANGED ? systemOutcome : towerOutcome;
  }

  /** The tower's name is the system's too, unless the system was given one of its own. */
  private SystemDetails ownName(CoolingSystem system, String towerCode, SystemDetails own) {
    String name = system.details().name();
    boolean shared =
        towers.findByCode(towerCode).filter(t -> t.nameplate().name().equals(name)).isPresent();
    return shared ? own : own.withName(name);
  }

  private Outcome putTower(
      Actor actor, String code, CoolingSystem system, Nameplate nameplate, EmptyValues empty) {
    var found = towers.findByCode(code);
    if (found.isEmpty()) {
      if (!code.equals(system.code()) && systems.findByCode(code).isPresent()) {
        throw new IllegalArgumentException(
            "code '%s' is that of another system, and a tower's code stands for its system; give the tower another code"
                .formatted(code));
      }
      towers.save(new Tower(code, system.id(), nameplate, clock.instant()));
      history.record(actor, "added", "tower", code, system.customerId(), null, nameplate);
      events.publishEvent(FactsChanged.always(system.id(), "tower " + code + " added"));
      return Outcome.ADDED;
    }
    Tower tower = found.get();
    if (tower.systemId() != system.id()) {
      throw new MoveRefusedException("tower", code, "system");
    }
    Nameplate before = tower.nameplate();
    Nameplate after = empty.over(before, nameplate, Nameplate::updatedBy);
    if (after.equals(before)) {
      return Outcome.UNCHANGED;
    }
    tower.change(after);
    history.record(actor, "changed", "tower", code, system.customerId(), before, after);
    events.publishEvent(FactsChanged.always(system.id(), "tower " + code + " changed"));
    return Outcome.CHANGED;
  }

  /**
   * Adds a meter or updates what is known of it.
   *
   * @param systemCode system or tower it serves; null only for a site's service meter
   * @param siteCode its site; may be null when a system is given
   * @throws UnknownCodeException when there is no such site or system
   * @throws MoveRefusedException when the meter belongs elsewhere
   */
  public Outcome putMeter(
      Actor actor,
      String code,
      @Nullable String systemCode,
      @Nullable String siteCode,
      MeterDetails details,
      EmptyValues empty) {
    CoolingSystem system = systemCode == null ? null : getSystem(systemCode);
    if (system == null && details.role() != MeterRole.SERVICE) {
      throw new IllegalArgumentException(
          "meter '%s' is a %s meter and names no system; only a service meter may stand at a site alone"
              .formatted(code, details.role().code()));
    }
    Site site = siteOf(system, siteCode, code);
    var found = meters.findByCode(code);
    Long systemId = system == null ? null : system.id();
    if (found.isEmpty()) {
      meters.save(new Meter(code, site.id(), systemId, details, clock.instant()));
      history.record(actor, "added", "meter", code, site.customerId(), null, details);
      publishMeterChange(systemId, "meter " + code + " added");
      return Outcome.ADDED;
    }
    Meter meter = found.get();
    if (meter.siteId() != site.id() || !Objects.equals(meter.systemId().orElse(null), systemId)) {
      throw new MoveRefusedException("meter", code, "system or site");
    }
    MeterDetails before = meter.details();
    MeterDetails after = empty.over(before, details, MeterDetails::updatedBy);
    if (after.equals(before)) {
      return Outcome.UNCHANGED;
    }
    meter.change(after);
    history.record(actor, "changed", "meter", code, site.customerId(), before, after);
    publishMeterChange(systemId, "meter " + code + " changed");
    return Outcome.CHANGED;
  }

  private Site siteOf(@Nullable CoolingSystem system, @Nullable String siteCode, String meter) {
    if (system != null) {
      Site site = sites.findById(system.siteId()).orElseThrow();
      if (siteCode != null && !site.code().equals(siteCode)) {
        throw new IllegalArgumentException(
            "meter '%s' names site '%s', but its system stands at '%s'; leave the site empty or correct it"
                .formatted(meter, siteCode, site.code()));
      }
      return site;
    }
    if (siteCode == null) {
      throw new IllegalArgumentException(
          "meter '%s' names neither system nor site; give one".formatted(meter));
    }
    return getSite(siteCode);
  }

  private void publishMeterChange(@Nullable Long systemId, String reason) {
    if (systemId != null) {
      events.publishEvent(FactsChanged.always(systemId, reason));
    }
  }

  /**
   * The site with a code.
   *
   * @throws UnknownCodeException when there is none
   */
  @Transactional(readOnly = true)
  public Site getSite(String code) {
    return sites.findByCode(code).orElseThrow(() -> new UnknownCodeException("site", code));
  }

  /**
   * The system with a code; a tower's code stands for its system.
   *
   * @throws UnknownCodeException when there is none
   */
  @Transactional(readOnly = true)
  public CoolingSystem getSystem(String code) {
    return findSystem(code).orElseThrow(() -> new UnknownCodeException("system", code));
  }

  /** The system with a code; a tower's code stands for its system. */
  @Transactional(readOnly = true)
  public Optional<CoolingSystem> findSystem(String code) {
    return systems
        .findByCode(code)
        .or(() -> towers.findByCode(code).flatMap(tower -> systems.findById(tower.systemId())));
  }

  /**
   * The meter with a code.
   *
   * @throws UnknownCodeException when there is none
   */
  @Transactional(readOnly = true)
  public Meter getMeter(String code) {
    return findMeter(code).orElseThrow(() -> new UnknownCodeException("meter", code));
  }

  @Transactional(readOnly = true)
  public Optional<Meter> findMeter(String code) {
    return meters.findByCode(code);
  }

  @Transactional(readOnly = true)
  public Optional<Site> findSite(long id) {
    return sites.findById(id);
  }

  @Transactional(readOnly = true)
  public Optional<CoolingSystem> findSystem(long id) {
    return systems.findById(id);
  }

  @Transactional(readOnly = true)
  public List<CoolingSystem> listSystems(Site site) {
    return systems.findBySiteIdOrderByCode(site.id());
  }

  /** Systems of several sites, by site; a site without any is left out. */
  @Transactional(readOnly = true)
  public Map<Long, List<CoolingSystem>> listSystemsOf(Collection<Long> siteIds) {
    return systems.findBySiteIdInOrderByCode(siteIds).stream()
        .collect(Collectors.groupingBy(CoolingSystem::siteId));
  }

  @Transactional(readOnly = true)
  public List<CoolingSystem> listSystems(Collection<Long> ids) {
    return systems.findAllById(ids);
  }

  /** Systems of the sites billed on a rate schedule, for water or for sewer. */
  @Transactional(readOnly = true)
  public List<CoolingSystem> listSystemsBilledOn(String schedule) {
    return systems.findBilledOn(schedule);
  }

  @Transactional(readOnly = true)
  public List<Site> listSites(Collection<Long> ids) {
    return sites.findAllById(ids);
  }

  /** Towers of many systems at once, by system. */
  @Transactional(readOnly = true)
  public Map<Long, List<Tower>> listTowers(Collection<Long> systemIds) {
    return towers.listOf(systemIds).stream().collect(Collectors.groupingBy(Tower::systemId));
  }

  /** Meters of many systems at once, by system. */
  @Transactional(readOnly = true)
  public Map<Long, List<Meter>> listMeters(Collection<Long> systemIds) {
    return meters.listOf(systemIds).stream()
        .collect(Collectors.groupingBy(meter -> meter.systemId().orElseThrow()));
  }

  /** The site's own service meters. */
  @Transactional(readOnly = true)
  public List<Meter> listServiceMeters(Site site) {
    return meters.findBySiteIdAndSystemIdIsNullOrderByCode(site.id());
  }

  /** The service meters of several sites, by site; a site without any is left out. */
  @Transactional(readOnly = true)
  public Map<Long, List<Meter>> listServiceMetersOf(Collection<Long> siteIds) {
    return meters.findBySiteIdInAndSystemIdIsNullOrderByCode(siteIds).stream()
        .collect(Collectors.groupingBy(Meter::siteId));
  }
}
