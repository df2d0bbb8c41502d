package towerledger.portal;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.meter.MeterRecords;
import towerledger.meter.ReadingEntry;
import towerledger.meter.RegisterReading;
import towerledger.page.RegisterUnit;
import towerledger.portal.PortalView.MeterLine;
import towerledger.portal.PortalView.ReadingForm;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Lets a customer hand in the registers of their own meters, where the office allows it. */
@Controller
@RequestMapping("/portal/readings")
@OpenTo(value = Role.CUSTOMER, need = OpenTo.Need.ENTER)
class ReadingsController {

  private static final int LONGEST_NUMBER = 30;

  private final SiteAccess access;
  private final Sites sites;
  private final MeterRecords records;
  private final ReadingEntry entry;
  private final MessageSource messages;
  private final Clock clock;

  ReadingsController(
      SiteAccess access,
      Sites sites,
      MeterRecords records,
      ReadingEntry entry,
      MessageSource messages,
      Clock clock) {
    this.access = access;
    this.sites = sites;
    this.records = records;
    this.entry = entry;
    this.messages = messages;
    this.clock = clock;
  }

  @GetMapping
  String show(Viewer viewer, @ModelAttribute("figureText") FigureText text, Model model) {
    return show(viewer, new ReadingForm("", "", "", ""), null, null, List.of(), text, model);
  }

  @PostMapping
  String take(
      @RequestParam(defaultValue = "") String meter,
      @RequestParam(defaultValue = "") String register,
      @RequestParam(defaultValue = "") String readAt,
      @RequestParam(defaultValue = "") String note,
      Viewer viewer,
      Actor actor,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Meter found =
        access
            .findMeter(viewer, meter)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    var form = new ReadingForm(meter, register, readAt, note);
    Words words = new Words(messages, text.locale());
    ZoneId zone = sites.findSite(found.siteId()).orElseThrow().details().zone();
    ReasonText reasons = new ReasonText(words, text, zone);
    Optional<BigDecimal> number = number(register);
    Optional<Instant> at = instant(readAt, zone);
    if (number.isEmpty() || at.isEmpty()) {
      String trouble = number.isEmpty() ? "portal.readings.no-number" : "portal.readings.no-time";
      return show(viewer, form, words.of(trouble), null, List.of(), text, model);
    }
    try {
      ReadingEntry.Entered entered =
          entry.enter(
              actor,
              found,
              RegisterReading.actual(at.get(), number.get()),
              note.isBlank() ? null : note.strip(),
              Optional.empty());
      return show(
          viewer,
          new ReadingForm("", "", readAt, ""),
          null,
          words.of("portal.readings.taken", found.code(), number.get().toPlainString()),
          entered.remarks().stream().map(remark -> reasons.say(remark.words())).toList(),
          text,
          model);
    } catch (IllegalArgumentException e) {
      return show(viewer, form, reasons.say(e), null, List.of(), text, model);
    }
  }

  private static Optional<BigDecimal> number(String typed) {
    String bare = typed.strip().replace(",", "");
    return bare.length() <= LONGEST_NUMBER && bare.matches("[0-9]+(\\.[0-9]+)?")
        ? Optional.of(new BigDecimal(bare))
        : Optional.empty();
  }

  /** The instant when the clock at the site showed this; none in an hour that is skipped. */
  private static Optional<Instant> instant(String typed, ZoneId zone) {
    try {
      LocalDateTime local = LocalDateTime.parse(typed.strip());
      return zone.getRules().getValidOffsets(local).isEmpty()
          ? Optional.empty()
          : Optional.of(local.atZone(zone).toInstant());
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private String show(
      Viewer viewer,
      ReadingForm form,
      @Nullable String trouble,
      @Nullable String taken,
      List<String> remarks,
      FigureText text,
      Model model) {
    model.addAttribute(
        "view", new PortalView.Readings(meters(viewer, text), form, trouble, taken, remarks));
    return "portal/readings";
  }

  private List<MeterLine> meters(Viewer viewer, FigureText text) {
    Words words = new Words(messages, text.locale());
    List<MeterLine> lines = new ArrayList<>();
    for (Site site : access.listSites(viewer)) {
      List<CoolingSystem> systems = sites.listSystems(site);
      var meters = sites.listMeters(systems.stream().map(CoolingSystem::id).toList());
      sites
          .listServiceMeters(site)
          .forEach(meter -> add(lines, meter, site.details().name(), site, words, text));
      for (CoolingSystem system : systems) {
        meters
            .getOrDefault(system.id(), List.of())
            .forEach(meter -> add(lines, meter, system.details().name(), site, words, text));
      }
    }
    return lines;
  }

  private void add(
      List<MeterLine> lines, Meter meter, String where, Site site, Words words, FigureText text) {
    if (meter.details().removedAt() != null) {
      return;
    }
    lines.add(
        new MeterLine(
            meter.code(),
            where,
            words.of("meter.role." + meter.details().role().code()),
            records
                .findLastBefore(meter, clock.instant())
                .map(
                    last ->
                        words.of(
                            "portal.readings.last",
                            "%s\u00a0%s"
                                .formatted(
                                    text.decimals(
                                        last.register().doubleValue(),
                                        Math.max(0, Math.min(3, last.register().scale()))),
                                    RegisterUnit.of(meter.details(), words, text)),
                            text.moment(last.readAt(), site.details().zone())))
                .orElse(words.of("figure.unknown"))));
  }
}
