package towerledger.intake.file;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import towerledger.account.Viewer;
import towerledger.meter.Register;
import towerledger.site.CoolingSystem;
import towerledger.site.Dependents;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.site.UnknownCodeException;

/**
 * What codes stand for during one import, looked up once each. What the sender may not see is not
 * there.
 */
public final class Directory {

  private static final int REMEMBERED = 20_000;

  private final Sites sites;
  private final SiteAccess access;
  private final Dependents dependents;
  private final @Nullable Viewer viewer;
  private final Cache<String, Optional<MeterPlace>> meters = cache();
  private final Cache<String, Optional<SystemPlace>> systems = cache();
  private final Cache<String, Optional<SitePlace>> sitePlaces = cache();
  private final Cache<String, Optional<ZoneId>> stationZones = cache();

  /**
   * A directory for one import.
   *
   * @param viewer whose eyes to look with; null for the program itself, which sees everything
   */
  public Directory(Sites sites, SiteAccess access, Dependents dependents, @Nullable Viewer viewer) {
    this.sites = sites;
    this.access = access;
    this.dependents = dependents;
    this.viewer = viewer;
  }

  private static <T> Cache<String, T> cache() {
    return Caffeine.newBuilder().maximumSize(REMEMBERED).build();
  }

  /** A site's key, customer and calendar. */
  public record SitePlace(long siteId, long customerId, ZoneId zone) {}

  /** A system's key, and where it stands. */
  public record SystemPlace(long systemId, SitePlace site) {}

  /** A meter's key, its register, its system if it has one, and where it stands. */
  public record MeterPlace(
      long meterId, Register register, @Nullable Long systemId, SitePlace site) {}

  /**
   * The meter with a code.
   *
   * @throws UnknownCodeException when there is none for this sender
   */
  public MeterPlace meter(String code) {
    return meters
        .get(code, this::findMeter)
        .orElseThrow(() -> new UnknownCodeException("meter", code));
  }

  private Optional<MeterPlace> findMeter(String code) {
    Optional<Meter> found;
    if (viewer == null) {
      try {
        found = Optional.of(sites.getMeter(code));
      } catch (UnknownCodeException e) {
        found = Optional.empty();
      }
    } else {
      found = access.findMeter(viewer, code);
    }
    return found.map(
        meter ->
            new MeterPlace(
                meter.id(),
                Register.of(meter),
                meter.systemId().orElse(null),
                place(meter.siteId())));
  }

  /**
   * The system with its own or a tower's code.
   *
   * @throws UnknownCodeException when there is none for this sender
   */
  public SystemPlace system(String code) {
    return systems
        .get(code, this::findSystem)
        .orElseThrow(() -> new UnknownCodeException("system", code));
  }

  private Optional<SystemPlace> findSystem(String code) {
    Optional<CoolingSystem> found =
        viewer == null ? sites.findSystem(code) : access.findSystem(viewer, code);
    return found.map(system -> new SystemPlace(system.id(), place(system.siteId())));
  }

  /**
   * The site with a code.
   *
   * @throws UnknownCodeException when there is none for this sender
   */
  public SitePlace site(String code) {
    return sitePlaces
        .get(code, this::findSite)
        .orElseThrow(() -> new UnknownCodeException("site", code));
  }

  private Optional<SitePlace> findSite(String code) {
    if (viewer != null) {
      return access.findSite(viewer, code).map(Directory::place);
    }
    try {
      return Optional.of(place(sites.getSite(code)));
    } catch (UnknownCodeException e) {
      return Optional.empty();
    }
  }

  private SitePlace place(long siteId) {
    return sites.findSite(siteId).map(Directory::place).orElseThrow();
  }

  private static SitePlace place(Site site) {
    return new SitePlace(site.id(), site.customerId(), site.details().zone());
  }

  @Nullable Long customerId() {
    return viewer == null ? null : viewer.customerId();
  }

  /** The zone of a station's times: that of the sites which use it, if they agree. */
  public @Nullable ZoneId stationZone(String station) {
    return stationZones
        .get(
            station,
            code -> {
              List<ZoneId> zones = dependents.zonesOfStation(code);
              return zones.size() == 1 ? Optional.of(zones.get(0)) : Optional.empty();
            })
        .orElse(null);
  }
}
