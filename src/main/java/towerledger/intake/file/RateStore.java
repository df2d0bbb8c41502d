package towerledger.intake.file;

import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import towerledger.account.ChangeHistory;
import towerledger.bulk.BatchResult.Fate;
import towerledger.bulk.BulkTable;
import towerledger.site.Dependents;
import towerledger.site.FactsChanged;
import towerledger.site.FactsChanged.Touched;

/** Puts rows of rate schedules into their table, keeps their history and tells the news. */
@Component
class RateStore {

  private final ChangeHistory history;
  private final Dependents dependents;
  private final ApplicationEventPublisher events;

  RateStore(ChangeHistory history, Dependents dependents, ApplicationEventPublisher events) {
    this.history = history;
    this.dependents = dependents;
    this.events = events;
  }

  List<Fate> take(BulkTable table, String kind, List<RateRow> rows, Taking taking) {
    var result = taking.load(table).apply(rows.stream().map(RateRow::cells).toList());
    var touched = new ArrayList<Touched>();
    for (int i = 0; i < rows.size(); i++) {
      RateRow row = rows.get(i);
      if (FactStore.isNews(result.fates().get(i))) {
        for (var placed : dependents.onSchedule(row.schedule())) {
          touched.add(new Touched(placed.systemId(), YearMonth.from(row.effectiveFrom()), null));
        }
        if (result.fates().get(i) == Fate.ADDED) {
          record(table, kind, "added", null, row.cells(), taking);
        }
      }
    }
    result.changes().forEach(c -> record(table, kind, "changed", c.before(), c.after(), taking));
    if (!touched.isEmpty()) {
      events.publishEvent(new FactsChanged(touched.stream().distinct().toList(), "rates changed"));
    }
    return result.fates();
  }

  private void record(
      BulkTable table,
      String kind,
      String action,
      @Nullable Object @Nullable [] before,
      @Nullable Object[] after,
      Taking taking) {
    history.record(
        taking.actor(),
        action,
        kind,
        after[table.index("schedule")] + " from " + after[table.index("effective_from")],
        null,
        before == null ? null : table.describe(before),
        table.describe(after));
  }
}
