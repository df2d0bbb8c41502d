package towerledger.office.rounds;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.balance.facts.Visit;
import towerledger.drawing.FigureText;
import towerledger.finding.Finding;
import towerledger.finding.Findings;
import towerledger.logsheet.VisitCodes;
import towerledger.meter.ExpectedVolume;
import towerledger.meter.MeterRecords;
import towerledger.meter.RegisterReading;
import towerledger.page.RegisterUnit;
import towerledger.quantity.Span;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.wording.Words;

/** Composes the pages of rounds. */
@Component
class RoundPage {

  private static final int ROWS = 40;
  private static final int PHOTOS = 4;
  private static final Duration LOOK_BACK = Duration.ofDays(400);

  /** The project's inspection list, in the order in which somebody walks around a tower. */
  private static final List<RoundViews.Group> INSPECTION =
      List.of(
          new RoundViews.Group(
              "level",
              List.of(
                  "level-normal",
                  "level-high",
                  "overflow-dry",
                  "overflow-running",
                  "overflow-at-stop")),
          new RoundViews.Group(
              "valve",
              List.of(
                  "fill-valve-tight",
                  "fill-valve-passing",
                  "fill-valve-open",
                  "fill-valve-closed")),
          new RoundViews.Group("bleed", List.of("bleed-normal", "bleed-running")),
          new RoundViews.Group(
              "around",
              List.of(
                  "basin-dry", "basin-wet", "makeup-line-wet", "hose-connected", "meter-stuck")),
          new RoundViews.Group(
              "drift", List.of("eliminators-sound", "eliminators-damaged", "scale-visible")));

  private final DueReadings due;
  private final SiteAccess access;
  private final Sites sites;
  private final MeterRecords records;
  private final Findings findings;
  private final Photos photos;
  private final MessageSource messages;
  private final Clock clock;

  RoundPage(
      DueReadings due,
      SiteAccess access,
      Sites sites,
      MeterRecords records,
      Findings findings,
      Photos photos,
      MessageSource messages,
      Clock clock) {
    this.due = due;
    this.access = access;
    this.sites = sites;
    this.records = records;
    this.findings = findings;
    this.photos = photos;
    this.messages = messages;
    this.clock = clock;
  }

  RoundViews.Due due(Viewer viewer, String search, int offset, FigureText text) {
    Words words = new Words(messages, text.locale());
    int from = Math.max(0, offset);
    List<DueReadings.Stop> found = due.list(viewer, search, from, ROWS + 1);
    List<RoundViews.Stop> stops =
        found.stream()
            .limit(ROWS)
            .map(
                stop ->
                    new RoundViews.Stop(
                        stop.system(),
                        stop.name(),
                        words.of("review.whose", stop.site(), stop.customer()),
                        stop.lastRead()
                            .map(at -> text.moment(at, ZoneId.of(stop.zone())))
                            .orElse(words.of("round.never")),
                        stop.due()))
            .toList();
    long sent = findings.countAssignedTo(viewer);
    return new RoundViews.Due(
        stops.isEmpty() ? nothing(viewer, search, words) : waiting(found, from, words),
        sent == 0 ? null : words.of("round.sent", sent),
        search,
        stops.isEmpty() && search.isBlank() && viewer.canAdminister(),
        stops,
        from > 0 ? address(search, Math.max(0, from - ROWS)) : null,
        found.size() > ROWS ? address(search, from + ROWS) : null);
  }

  /**
   * How many are due. The longest unread come first: before one that is due, all are; after the
   * last of a full page there may be more, which nobody counts for a sentence.
   */
  private static String waiting(List<DueReadings.Stop> found, int from, Words words) {
    long here = found.stream().limit(ROWS).filter(DueReadings.Stop::due).count();
    boolean more = found.size() > ROWS && found.get(ROWS).due();
    return words.of(more ? "round.lead.more" : "round.lead", here == 0 ? 0 : from + here);
  }

  /** Why the list is empty, and what fills it. */
  private String nothing(Viewer viewer, String search, Words words) {
    return words.of(
        !search.isBlank()
            ? "round.lead.none"
            : viewer.role() == Role.TECHNICIAN && access.listSites(viewer).isEmpty()
                ? "round.lead.no-site"
                : "round.lead.no-meter");
  }

  private static String address(String search, int offset) {
    return "/rounds?offset="
        + offset
        + "&search="
        + java.net.URLEncoder.encode(search, java.nio.charset.StandardCharsets.UTF_8);
  }

  /** The sheet of a system, read in one transaction; empty when the viewer has no such system. */
  @Transactional(readOnly = true)
  Optional<RoundViews.Sheet> sheet(Viewer viewer, String code, FigureText text) {
    return access
        .findSystem(viewer, code)
        .map(system -> sheet(system, Map.of(), Set.of(), Map.of(), text));
  }

  @Transactional(readOnly = true)
  RoundViews.Sheet sheet(
      CoolingSystem system,
      Map<String, String> typed,
      Set<String> chosen,
      Map<String, String> wrong,
      FigureText text) {
    Words words = new Words(messages, text.locale());
    Site site = sites.findSite(system.siteId()).orElseThrow();
    ZoneId zone = site.details().zone();
    Instant now = clock.instant();
    List<RoundViews.MeterLine> meters = new ArrayList<>();
    for (Meter meter : inService(system)) {
      meters.add(line(meter, zone, now, words, text));
    }
    String pressure = text.pressureUnitName();
    return new RoundViews.Sheet(
        system.code(),
        system.details().name(),
        site.details().name(),
        words.of(meters.isEmpty() ? "round.sheet.no-meter" : "round.sheet.lead"),
        findings.listOf(system.id()).stream()
            .filter(finding -> finding.status().awaitsWork())
            .map(finding -> task(finding, words))
            .toList(),
        typed.getOrDefault(
            "when",
            LocalDateTime.ofInstant(now, zone)
                .truncatedTo(ChronoUnit.MINUTES)
                .format(DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm"))),
        zone.getId(),
        meters,
        List.of(
            new RoundViews.Measure("makeup-conductivity", "round.makeup-conductivity", "µS/cm"),
            new RoundViews.Measure("basin-conductivity", "round.basin-conductivity", "µS/cm"),
            new RoundViews.Measure("controller", "round.controller", "µS/cm"),
            new RoundViews.Measure("handheld", "round.handheld", "µS/cm"),
            new RoundViews.Measure("supply-pressure", "round.supply-pressure", pressure),
            new RoundViews.Measure("valve-pressure", "round.valve-pressure", pressure)),
        INSPECTION,
        java.util.Arrays.stream(Visit.Event.values()).map(VisitCodes::code).toList(),
        typed,
        chosen,
        wrong,
        photos.listNewest(system, PHOTOS).stream()
            .map(photo -> new RoundViews.Picture(photo.id(), text.moment(photo.at(), zone)))
            .toList());
  }

  private static RoundViews.Task task(Finding finding, Words words) {
    return new RoundViews.Task(
        finding.id(),
        finding.causeSet().stream()
            .map(cause -> words.of("cause." + cause.code()))
            .collect(Collectors.joining(words.of("verdict.or"))),
        words.of("cause." + finding.likeliest().code() + ".next"));
  }

  /** What the fields of a system's sheet are called, by their names in the form. */
  Map<String, String> fieldNames(CoolingSystem system, Words words) {
    Map<String, String> names = new HashMap<>();
    inService(system)
        .forEach(meter -> names.put(RoundSheet.REGISTER + meter.code(), name(meter, words)));
    Stream.concat(RoundSheet.CONDUCTIVITIES.stream(), RoundSheet.PRESSURES.stream())
        .forEach(field -> names.put(field, words.of("round." + field)));
    names.put("observation", words.of("round.observation"));
    names.put("work", words.of("round.work-done"));
    names.put("photo", words.of("round.photo"));
    return names;
  }

  private static String name(Meter meter, Words words) {
    return words.of(
        "round.meter", words.of("meter.role." + meter.details().role().code()), meter.code());
  }

  List<Meter> inService(CoolingSystem system) {
    return sites.listMeters(List.of(system.id())).getOrDefault(system.id(), List.of()).stream()
        .filter(meter -> meter.details().removedAt() == null)
        .sorted(Comparator.comparing(meter -> meter.details().role()))
        .toList();
  }

  /** What a meter is expected to have passed since it was last read; empty when not known. */
  @Transactional(readOnly = true)
  Optional<ExpectedVolume> expected(Meter meter, Instant now) {
    return records.findLastBefore(meter, now).flatMap(last -> expected(meter, last, now));
  }

  /**
   * Of a meter that is read, its readings say what is usual; only where they are too few, intervals
   * longer than a day are looked for, among those of every hour there may be.
   */
  private Optional<ExpectedVolume> expected(Meter meter, RegisterReading last, Instant now) {
    Span lately = Span.of(now.minus(LOOK_BACK), now);
    return UsualFlow.of(records.listVolumesRead(meter, lately))
        .or(() -> UsualFlow.of(records.listLongVolumes(meter, lately)))
        .map(flow -> flow.between(last.readAt(), now));
  }

  private RoundViews.MeterLine line(
      Meter meter, ZoneId zone, Instant now, Words words, FigureText text) {
    Optional<RegisterReading> last = records.findLastBefore(meter, now);
    Optional<ExpectedVolume> expected = last.flatMap(reading -> expected(meter, reading, now));
    String low = "";
    String high = "";
    String says = "";
    if (last.isPresent() && expected.isPresent()) {
      double count = meter.details().litresPerCount();
      low = register(last.get(), expected.get().lowLitres() / count);
      high = register(last.get(), expected.get().highLitres() / count);
      says = words.of("round.expected", shown(low, text), shown(high, text));
    }
    return new RoundViews.MeterLine(
        RoundSheet.REGISTER + meter.code(),
        name(meter, words),
        RegisterUnit.of(meter.details(), words, text),
        last.map(
                reading ->
                    words.of(
                        "round.last",
                        shown(reading.register().toPlainString(), text),
                        text.moment(reading.readAt(), zone)))
            .orElse(words.of("round.first")),
        says,
        low,
        high);
  }

  private static String register(RegisterReading last, double counts) {
    return last.register()
        .add(BigDecimal.valueOf(counts))
        .setScale(0, RoundingMode.HALF_UP)
        .toPlainString();
  }

  private static String shown(String register, FigureText text) {
    BigDecimal value = new BigDecimal(register);
    return text.decimals(
        value.doubleValue(), Math.max(0, Math.min(3, value.stripTrailingZeros().scale())));
  }
}
