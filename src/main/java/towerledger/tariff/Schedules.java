package towerledger.tariff;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.site.FactsChanged;
import towerledger.site.Sites;
import towerledger.tariff.ScheduleRows.BlockRow;
import towerledger.tariff.ScheduleRows.ChargeRow;
import towerledger.tariff.ScheduleRows.Taken;
import towerledger.tariff.ScheduleRows.VersionRow;

/**
 * The rate schedules kept. Rows go in as they are written and are refused, row by row, where they
 * would make no valid rates; schedules come out ready to bill with.
 */
@Component
@Transactional
public class Schedules {

  private final ScheduleTable table;
  private final Sites sites;
  private final ChangeHistory history;
  private final ApplicationEventPublisher events;

  Schedules(
      ScheduleTable table, Sites sites, ChangeHistory history, ApplicationEventPublisher events) {
    this.table = table;
    this.sites = sites;
    this.history = history;
    this.events = events;
  }

  /**
   * Takes rows of rate files. Rows of the same schedule and effective day belong together and
   * should come together; taking the same rows again changes nothing. Changed rates are news for
   * every system billed by them, from the month they begin.
   *
   * @return what became of every row, in no particular order
   */
  public List<Taken> take(Actor actor, ScheduleRows rows) {
    List<Taken> taken = new ArrayList<>();
    Map<List<Object>, ScheduleRows> versions = byVersion(rows);
    for (Map.Entry<List<Object>, ScheduleRows> entry : versions.entrySet()) {
      String schedule = (String) entry.getKey().get(0);
      LocalDate from = (LocalDate) entry.getKey().get(1);
      List<VersionRows> stored = table.list(schedule);
      Optional<VersionRows> before =
          stored.stream()
              .filter(version -> version.version().effectiveFrom().equals(from))
              .findFirst();
      ScheduleMerge merge =
          new ScheduleMerge(
              schedule,
              from,
              stored.stream()
                  .filter(version -> !version.version().effectiveFrom().equals(from))
                  .map(VersionRows::service)
                  .findFirst()
                  .orElse(null),
              before.orElse(null));
      merge.put(entry.getValue().versions(), entry.getValue().charges(), entry.getValue().blocks());
      taken.addAll(merge.taken());
      if (merge.changed()) {
        merge.findMerged().ifPresent(after -> store(actor, before, after));
      }
    }
    return taken;
  }

  /** The schedule with a code; empty when there is none. */
  @Transactional(readOnly = true)
  public Optional<RateSchedule> find(String code) {
    return schedule(table.list(code));
  }

  /**
   * The schedule with a code.
   *
   * @throws TariffException when there is none
   */
  @Transactional(readOnly = true)
  public RateSchedule get(String code) {
    return find(code)
        .orElseThrow(
            () ->
                new TariffException(
                    code,
                    "schedule '%s' is not known; import it in rate_schedules or correct the code"
                        .formatted(code)));
  }

  /** Every schedule, by code. */
  @Transactional(readOnly = true)
  public List<RateSchedule> list() {
    return table.listCodes().stream().flatMap(code -> find(code).stream()).toList();
  }

  private void store(Actor actor, Optional<VersionRows> before, VersionRows after) {
    table.replace(after);
    String schedule = after.version().schedule();
    LocalDate from = after.version().effectiveFrom();
    history.record(
        actor,
        before.isPresent() ? "changed" : "added",
        "schedule",
        VersionRows.versionName(schedule, from),
        null,
        before.orElse(null),
        after);
    List<FactsChanged.Touched> touched =
        sites.listSystemsBilledOn(schedule).stream()
            .map(system -> new FactsChanged.Touched(system.id(), YearMonth.from(from), null))
            .toList();
    if (!touched.isEmpty()) {
      events.publishEvent(
          new FactsChanged(
              touched, "rates of " + VersionRows.versionName(schedule, from) + " changed"));
    }
  }

  private static Optional<RateSchedule> schedule(List<VersionRows> versions) {
    if (versions.isEmpty()) {
      return Optional.empty();
    }
    VersionRow newest = versions.get(versions.size() - 1).version();
    return Optional.of(
        new RateSchedule(
            newest.schedule(),
            versions.get(0).service(),
            newest.name() == null ? newest.schedule() : newest.name(),
            versions.stream().map(VersionRows::assemble).toList()));
  }

  private static Map<List<Object>, ScheduleRows> byVersion(ScheduleRows rows) {
    Map<List<Object>, ScheduleRows> versions = new LinkedHashMap<>();
    var versionRows = grouped(rows.versions(), row -> List.of(row.schedule(), row.effectiveFrom()));
    var chargeRows = grouped(rows.charges(), row -> List.of(row.schedule(), row.effectiveFrom()));
    var blockRows = grouped(rows.blocks(), row -> List.of(row.schedule(), row.effectiveFrom()));
    List<List<Object>> keys = new ArrayList<>(versionRows.keySet());
    keys.addAll(chargeRows.keySet());
    keys.addAll(blockRows.keySet());
    for (List<Object> key : keys) {
      List<VersionRow> version = versionRows.getOrDefault(key, List.of());
      List<ChargeRow> charges = chargeRows.getOrDefault(key, List.of());
      List<BlockRow> blocks = blockRows.getOrDefault(key, List.of());
      versions.put(key, new ScheduleRows(version, charges, blocks));
    }
    return versions;
  }

  private static <T> Map<List<Object>, List<T>> grouped(
      List<T> rows, Function<T, List<Object>> key) {
    Map<List<Object>, List<T>> groups = new LinkedHashMap<>();
    rows.forEach(row -> groups.computeIfAbsent(key.apply(row), any -> new ArrayList<>()).add(row));
    return groups;
  }
}
