package towerledger.intake.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import towerledger.bulk.BatchResult.Fate;
import towerledger.bulk.BulkTable;
import towerledger.site.Dependents;

/** Puts facts into their table and tells which months they touch. */
@Component
class FactStore {

  private final Dependents dependents;
  private final ApplicationEventPublisher events;

  FactStore(Dependents dependents, ApplicationEventPublisher events) {
    this.dependents = dependents;
    this.events = events;
  }

  List<RowFate> take(BulkTable table, List<Fact> facts, Taking taking, String reason) {
    List<@Nullable Object[]> rows = facts.stream().map(Fact::row).toList();
    List<Fate> fates = taking.load(table).apply(rows).fates();
    var touched = new TouchedMonths();
    for (int i = 0; i < fates.size(); i++) {
      if (isNews(fates.get(i))) {
        touch(touched, facts.get(i));
      }
    }
    touched.publish(events, reason);
    return RowFate.ofAll(fates);
  }

  static boolean isNews(Fate fate) {
    return fate == Fate.ADDED || fate == Fate.CHANGED;
  }

  void touch(TouchedMonths touched, Fact fact) {
    Long systemId = fact.systemId();
    if (systemId == null) {
      for (var placed : dependents.atSite(fact.site().siteId())) {
        touched.add(placed.systemId(), placed.zone(), fact.from(), fact.to());
      }
    } else if (fact.from().equals(fact.to())) {
      touched.add(systemId, fact.site().zone(), fact.from());
    } else {
      touched.add(systemId, fact.site().zone(), fact.from(), fact.to());
    }
  }
}
