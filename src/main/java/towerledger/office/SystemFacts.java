package towerledger.office;

import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.SupplyPressure;
import towerledger.finding.Finding;
import towerledger.finding.Findings;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthWorking;
import towerledger.logsheet.LogRecords;
import towerledger.logsheet.VisitNote;
import towerledger.meter.MeterNetwork;
import towerledger.meter.MeterRecords;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.query.Answers;
import towerledger.query.Question;
import towerledger.query.Questions;
import towerledger.site.CoolingSystem;
import towerledger.site.MeterRole;
import towerledger.site.Settings;
import towerledger.site.Site;
import towerledger.site.SystemAtSite;
import towerledger.site.SystemPlaces;

/**
 * All that the page of a system is made of.
 *
 * @param rows newest rows of the ledger, oldest first
 * @param month month that is shown
 * @param entry its row
 * @param working its working
 * @param span the months that charts show, up to that month
 * @param visits visits in these months
 * @param pressures pressures read in these months
 * @param hours makeup of that month by the hour
 */
record SystemFacts(
    CoolingSystem system,
    Site site,
    EquipmentTables.Standing standing,
    List<LedgerEntry> rows,
    YearMonth month,
    Optional<LedgerEntry> entry,
    Optional<MonthWorking> working,
    Span span,
    List<Finding> findings,
    List<VisitNote> visits,
    List<SupplyPressure> pressures,
    Collection<IntervalVolumes> hours) {

  /** Months that charts show. */
  static final int MONTHS = 25;

  /** Months of the ledger table. */
  private static final int KEPT = 60;

  ZoneId zone() {
    return site.details().zone();
  }

  /**
   * Reads them: the rows tell the month, and the month what else there is to ask.
   *
   * @param wanted month to show; null for the newest that is over
   * @param otherwise month to show where the system has no rows
   */
  static SystemFacts read(
      Questions questions,
      Ledger ledger,
      SystemPlaces places,
      SystemAtSite place,
      @Nullable YearMonth wanted,
      Supplier<YearMonth> otherwise) {
    CoolingSystem system = place.system();
    ZoneId zone = place.site().details().zone();
    Question<List<LedgerEntry>> newest = Ledger.newest(system, KEPT);
    Question<List<Finding>> findings = Findings.of(system.id());
    Question<Settings> settings = SystemPlaces.settings(system);
    Answers first = questions.ask(newest, findings, settings);
    List<LedgerEntry> rows = first.to(newest);
    EquipmentTables.Standing standing =
        new EquipmentTables.Standing(place.towers(), places.listMeters(system), first.to(settings));
    YearMonth month = wanted != null ? wanted : Ledger.newestEnded(rows).orElseGet(otherwise);
    Optional<LedgerEntry> entry =
        rows.stream().filter(row -> row.month().equals(month)).findFirst();
    Span shown = CalendarMonth.of(month, zone).span();
    Span span =
        Span.of(
            CalendarMonth.of(month.minusMonths(MONTHS - 1L), zone).span().startInclusive(),
            shown.endExclusive());
    var working = ledger.working(system, month, entry.map(LedgerEntry::revision).orElse(0));
    var visits = LogRecords.visitNotes(system.id(), span);
    var pressures = LogRecords.pressures(system.id(), span);
    var hours =
        MeterRecords.hours(
            MeterNetwork.of(standing.meters(), List.of()).counted(MeterRole.MAKEUP), shown);
    Answers then = questions.ask(working, visits, pressures, hours);
    return new SystemFacts(
        system,
        place.site(),
        standing,
        rows,
        month,
        entry,
        then.to(working),
        span,
        first.to(findings),
        then.to(visits),
        then.to(pressures),
        then.to(hours).values());
  }
}
