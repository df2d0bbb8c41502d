package towerledger.office;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.finding.Findings;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.logsheet.LogRecords;
import towerledger.logsheet.VisitNote;
import towerledger.meter.MeterRecords;
import towerledger.meter.RegisterReading;
import towerledger.page.FigureTable;
import towerledger.page.RegisterUnit;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.query.Questions;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/**
 * What helps whoever stands at a tower: what is to be worked, the last readings and months, visits
 * and equipment. No price is on it.
 */
@Controller
class TowerController {

  private static final int MONTHS = 6;
  private static final int READINGS = 6;
  private static final int VISITS = 8;

  private final SiteAccess access;
  private final Sites sites;
  private final Questions questions;
  private final Findings findings;
  private final MeterRecords meters;
  private final EquipmentTables equipment;
  private final MessageSource messages;
  private final Clock clock;

  TowerController(
      SiteAccess access,
      Sites sites,
      Questions questions,
      Findings findings,
      MeterRecords meters,
      EquipmentTables equipment,
      MessageSource messages,
      Clock clock) {
    this.access = access;
    this.sites = sites;
    this.questions = questions;
    this.findings = findings;
    this.meters = meters;
    this.equipment = equipment;
    this.messages = messages;
    this.clock = clock;
  }

  /**
   * The page.
   *
   * @param findings what is, or was, to be looked at, newest first
   * @param tables readings, months, visits and equipment, each with its title; none is empty
   */
  record View(
      String code,
      String name,
      String whose,
      List<SystemView.FindingLine> findings,
      List<SystemView.Equipment> tables) {}

  @OpenTo({Role.OFFICE, Role.TECHNICIAN})
  @GetMapping("/rounds/{code}/tower")
  String show(
      Viewer viewer,
      @PathVariable String code,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    CoolingSystem system =
        access
            .findSystem(viewer, code)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    Words words = new Words(messages, text.locale());
    Site site = sites.findSite(system.siteId()).orElseThrow();
    ZoneId zone = site.details().zone();
    List<SystemView.Equipment> tables = new ArrayList<>();
    addReadings(tables, system, zone, words, text);
    add(tables, words.of("tower.months"), months(system, words, text));
    add(tables, words.of("system.visits"), visits(system, zone, words, text));
    tables.addAll(EquipmentTables.of(equipment.find(system), site, words, text));
    model.addAttribute(
        "view",
        new View(
            system.code(),
            system.details().name(),
            site.details().name(),
            findings.listOf(system.id()).stream()
                .map(finding -> SystemPage.line(finding, words, text))
                .toList(),
            tables));
    return "office/tower";
  }

  private static void add(List<SystemView.Equipment> tables, String title, FigureTable table) {
    if (!table.rows().isEmpty()) {
      tables.add(new SystemView.Equipment(title, table));
    }
  }

  /** The last readings, a table a meter, makeup first. */
  private void addReadings(
      List<SystemView.Equipment> tables,
      CoolingSystem system,
      ZoneId zone,
      Words words,
      FigureText text) {
    Instant now = clock.instant();
    Span year =
        Span.of(LocalDate.ofInstant(now, zone).minusYears(1).atStartOfDay(zone).toInstant(), now);
    List<Meter> own =
        sites.listMeters(List.of(system.id())).getOrDefault(system.id(), List.of()).stream()
            .sorted(Comparator.comparing((Meter meter) -> meter.details().role()))
            .toList();
    for (Meter meter : own) {
      List<List<String>> rows = new ArrayList<>();
      List<RegisterReading> read = meters.listReadings(meter, year);
      for (int i = read.size() - 1; i >= Math.max(0, read.size() - READINGS); i--) {
        rows.add(
            List.of(
                text.moment(read.get(i).readAt(), zone),
                text.decimals(
                    read.get(i).register().doubleValue(),
                    Math.max(0, Math.min(3, read.get(i).register().scale())))));
      }
      add(
          tables,
          words.of(
              "tower.readings",
              words.of("meter.role." + meter.details().role().code()),
              meter.code()),
          new FigureTable(
              List.of(
                  words.of("finding.when"),
                  words.of("tower.reading", RegisterUnit.of(meter.details(), words, text))),
              rows));
    }
  }

  private FigureTable months(CoolingSystem system, Words words, FigureText text) {
    List<LedgerEntry> rows = questions.answer(Ledger.newest(system, MONTHS));
    WaterText water = new WaterText(words, text);
    VerdictText verdict = new VerdictText(words, text);
    List<List<String>> cells = new ArrayList<>();
    for (int i = rows.size() - 1; i >= 0; i--) {
      LedgerEntry row = rows.get(i);
      cells.add(
          List.of(
              text.month(row.month()),
              water.volume(row.water().makeup()),
              water.expected(row.water()),
              verdict.verdict(row)));
    }
    return new FigureTable(
        List.of(
            words.of("figure.month"),
            words.of("review.sum.makeup"),
            words.of("system.expected"),
            words.of("review.verdict")),
        cells);
  }

  private FigureTable visits(CoolingSystem system, ZoneId zone, Words words, FigureText text) {
    YearMonth now = YearMonth.from(clock.instant().atZone(zone));
    Span span =
        Span.of(
            CalendarMonth.of(now.minusYears(2), zone).span().startInclusive(),
            CalendarMonth.of(now, zone).span().endExclusive());
    List<VisitNote> made = questions.answer(LogRecords.visitNotes(system.id(), span));
    return new FigureTable(
        List.of(words.of("finding.when"), words.of("finding.what")),
        SystemEvents.visits(made, VISITS, zone, words, text).stream()
            .map(visit -> List.of(visit.day().replace(' ', '\u00a0'), visit.says()))
            .toList());
  }
}
