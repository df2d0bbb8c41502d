package towerledger.api;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.Customers;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.meter.MeterNetwork;
import towerledger.meter.MeterRecords;
import towerledger.quantity.Span;
import towerledger.quantity.Units;
import towerledger.site.CoolingSystem;
import towerledger.site.DatedSettings;
import towerledger.site.Meter;
import towerledger.site.SettingName;
import towerledger.site.Settings;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.SiteDetails;
import towerledger.site.Sites;
import towerledger.site.SystemDetails;
import towerledger.site.Tower;
import towerledger.weather.Stations;

/** Sites and systems as they are kept, under the names of the interchange files. */
@RestController
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
class EquipmentController {

  /** A meter's remarks are told for so long back. */
  private static final Duration REMARKS_BACK = Duration.ofDays(400);

  private static final int STATIONS_OFFERED = 5;
  private static final int SECONDS_PER_MINUTE = 60;

  private final SiteAccess access;
  private final Sites sites;
  private final DatedSettings settings;
  private final Customers customers;
  private final MeterRecords records;
  private final Stations stations;
  private final Ledger ledger;
  private final Clock clock;

  EquipmentController(
      SiteAccess access,
      Sites sites,
      DatedSettings settings,
      Customers customers,
      MeterRecords records,
      Stations stations,
      Ledger ledger,
      Clock clock) {
    this.access = access;
    this.sites = sites;
    this.settings = settings;
    this.customers = customers;
    this.records = records;
    this.stations = stations;
    this.ledger = ledger;
    this.clock = clock;
  }

  /**
   * A weather station near a site.
   *
   * @param station its code
   * @param name its name
   * @param kilometres how far it is
   * @param typicalYear whether it tells a typical year rather than observed hours
   */
  record NearStation(
      String station,
      @Nullable String name,
      double kilometres,
      @JsonProperty("typical_year") boolean typicalYear) {}

  /** A site with its systems and the stations nearest to it. */
  record SiteAnswer(
      String site,
      String customer,
      String name,
      @JsonProperty("time_zone") String timeZone,
      @JsonProperty("latitude_deg") @Nullable Double latitudeDeg,
      @JsonProperty("longitude_deg") @Nullable Double longitudeDeg,
      @JsonProperty("elevation_ft") @Nullable Double elevationFt,
      @Nullable String station,
      @JsonProperty("water_schedule") @Nullable String waterSchedule,
      @JsonProperty("sewer_schedule") @Nullable String sewerSchedule,
      @JsonProperty("service_meter_size_in") @Nullable Double serviceMeterSizeIn,
      List<String> systems,
      @JsonProperty("nearest_stations") List<NearStation> nearestStations) {}

  /** A system in a list. */
  record SystemLine(String system, String site, String customer, String name, String kind) {}

  /** A tower of a system. */
  record TowerAnswer(
      String tower,
      String name,
      @Nullable Integer cells,
      @JsonProperty("nominal_tons") double nominalTons,
      @JsonProperty("design_water_flow_gpm") @Nullable Double designWaterFlowGpm,
      @JsonProperty("started_on") @Nullable LocalDate startedOn) {}

  /**
   * A meter of a system.
   *
   * @param remarks what there is to know of its readings: roll-over, running backwards, interval
   *     volumes that disagree with the register …
   */
  record MeterAnswer(
      String meter,
      String role,
      String unit,
      BigDecimal multiplier,
      @JsonProperty("register_digits") @Nullable Integer registerDigits,
      @JsonProperty("parent_meter") @Nullable String parentMeter,
      @JsonProperty("installed_at") @Nullable Instant installedAt,
      @JsonProperty("removed_at") @Nullable Instant removedAt,
      List<RemarkAnswer> remarks) {}

  /** Something to know about a meter's readings. */
  record RemarkAnswer(String kind, Instant at, String words) {}

  /** A setting from a day on. */
  record SettingAnswer(
      String setting, @JsonProperty("effective_from") LocalDate effectiveFrom, String value) {}

  /**
   * A system with everything kept of it.
   *
   * @param newestMonth newest month of the ledger as in {@code /ledger}; null when there is none
   */
  record SystemAnswer(
      String system,
      String site,
      String customer,
      String name,
      String kind,
      @JsonProperty("system_volume_gal") @Nullable Double systemVolumeGal,
      @JsonProperty("heat_source") @Nullable String heatSource,
      @JsonProperty("waterside_economizer") @Nullable Boolean watersideEconomizer,
      @JsonProperty("building_use") @Nullable String buildingUse,
      @JsonProperty("idle_months") @Nullable String idleMonths,
      List<TowerAnswer> towers,
      List<MeterAnswer> meters,
      List<SettingAnswer> settings,
      @JsonProperty("newest_month") @Nullable Map<String, @Nullable Object> newestMonth) {}

  /** Every site this viewer may see. */
  @GetMapping("/api/v1/sites")
  List<SiteAnswer> listSites(Viewer viewer) {
    return access.listSites(viewer).stream().map(site -> answer(site, List.of())).toList();
  }

  /** A site, with the weather stations nearest to it. */
  @GetMapping("/api/v1/sites/{code}")
  SiteAnswer getSite(Viewer viewer, @PathVariable("code") String code) {
    Site site =
        access.findSite(viewer, code).orElseThrow(() -> new NotThereException("site", code));
    return answer(site, nearest(site.details()));
  }

  /** Every system this viewer may see. */
  @GetMapping("/api/v1/systems")
  List<SystemLine> listSystems(Viewer viewer) {
    List<SystemLine> lines = new ArrayList<>();
    for (Site site : access.listSites(viewer)) {
      String customer = customer(site);
      for (CoolingSystem system : sites.listSystems(site)) {
        lines.add(
            new SystemLine(
                system.code(),
                site.code(),
                customer,
                system.details().name(),
                system.details().kindOrOpen().code()));
      }
    }
    return lines;
  }

  /** A system by its own or a tower's code. */
  @GetMapping("/api/v1/systems/{code}")
  SystemAnswer getSystem(Viewer viewer, @PathVariable("code") String code) {
    CoolingSystem system =
        access.findSystem(viewer, code).orElseThrow(() -> new NotThereException("system", code));
    Site site = sites.findSite(system.siteId()).orElseThrow();
    List<Long> id = List.of(system.id());
    SystemDetails details = system.details();
    return new SystemAnswer(
        system.code(),
        site.code(),
        customer(site),
        details.name(),
        details.kindOrOpen().code(),
        gallons(details.systemVolumeL()),
        details.heatSource() == null ? null : details.heatSource().code(),
        details.watersideEconomizer(),
        details.buildingUse() == null ? null : details.buildingUse().code(),
        details.idleMonths(),
        sites.listTowers(id).getOrDefault(system.id(), List.of()).stream()
            .map(EquipmentController::answer)
            .toList(),
        meters(site, system),
        settings(settings.list(id).getOrDefault(system.id(), Settings.none())),
        newest(system));
  }

  private SiteAnswer answer(Site site, List<NearStation> near) {
    SiteDetails details = site.details();
    Double elevation = details.elevationM();
    Double size = details.serviceMeterSizeMm();
    return new SiteAnswer(
        site.code(),
        customer(site),
        details.name(),
        details.timeZone(),
        details.latitudeDeg(),
        details.longitudeDeg(),
        elevation == null ? null : rounded(elevation / Units.METRES_PER_FOOT, 10),
        details.station(),
        details.waterSchedule(),
        details.sewerSchedule(),
        size == null ? null : rounded(size / Units.MILLIMETRES_PER_INCH, 1000),
        sites.listSystems(site).stream().map(CoolingSystem::code).toList(),
        near);
  }

  private List<NearStation> nearest(SiteDetails details) {
    Double latitude = details.latitudeDeg();
    Double longitude = details.longitudeDeg();
    if (latitude == null || longitude == null) {
      return List.of();
    }
    return stations.listNearest(latitude, longitude, STATIONS_OFFERED).stream()
        .map(
            near ->
                new NearStation(
                    near.station().code(),
                    near.station().name().orElse(null),
                    rounded(near.kilometres(), 10),
                    near.station().typicalYear()))
        .toList();
  }

  private String customer(Site site) {
    return customers.get(site.customerId()).code();
  }

  private static TowerAnswer answer(Tower tower) {
    var plate = tower.nameplate();
    Double flow = plate.designWaterFlowLS();
    return new TowerAnswer(
        tower.code(),
        plate.name(),
        plate.cells(),
        rounded(plate.nominalKw() * 1000 / Units.WATTS_PER_TOWER_TON, 100),
        flow == null ? null : rounded(flow * SECONDS_PER_MINUTE / Units.LITRES_PER_US_GALLON, 10),
        plate.startedOn());
  }

  private List<MeterAnswer> meters(Site site, CoolingSystem system) {
    List<Meter> own = sites.listMeters(List.of(system.id())).getOrDefault(system.id(), List.of());
    MeterNetwork network = MeterNetwork.of(own, sites.listServiceMeters(site));
    Instant now = clock.instant();
    var read = records.records(own, Span.of(now.minus(REMARKS_BACK), now));
    return own.stream()
        .map(
            meter ->
                new MeterAnswer(
                    meter.code(),
                    meter.details().role().code(),
                    meter.details().unit(),
                    meter.details().multiplier(),
                    meter.details().registerDigits(),
                    meter.details().parentMeter(),
                    meter.details().installedAt(),
                    meter.details().removedAt(),
                    Stream.concat(
                            Stream.ofNullable(network.remarks().get(meter.code())),
                            Stream.ofNullable(read.get(meter.id()))
                                .flatMap(record -> record.remarks().stream()))
                        .map(
                            remark ->
                                new RemarkAnswer(
                                    LedgerColumns.code(remark.kind()), remark.at(), remark.words()))
                        .toList()))
        .toList();
  }

  private static List<SettingAnswer> settings(Settings settings) {
    List<SettingAnswer> all = new ArrayList<>();
    for (SettingName name : SettingName.values()) {
      settings
          .changes(name)
          .forEach((day, value) -> all.add(new SettingAnswer(name.code(), day, value)));
    }
    return all;
  }

  private @Nullable Map<String, @Nullable Object> newest(CoolingSystem system) {
    YearMonth now = YearMonth.now(clock);
    List<LedgerEntry> months = ledger.list(system, now.minusYears(2), now.plusMonths(1));
    return months.isEmpty() ? null : LedgerColumns.json(months.get(months.size() - 1));
  }

  private static @Nullable Double gallons(@Nullable Double litres) {
    return litres == null ? null : rounded(litres / Units.LITRES_PER_US_GALLON, 10);
  }

  private static double rounded(double value, int steps) {
    return Math.round(value * steps) / (double) steps;
  }
}
