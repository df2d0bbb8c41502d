package towerledger.intake.file;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.springframework.context.ApplicationEventPublisher;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.site.FactsChanged;
import towerledger.site.FactsChanged.Touched;

/** Gathers which months of which systems a batch touches, and tells the news of them together. */
final class TouchedMonths {

  private final Map<Long, TreeSet<YearMonth>> months = new HashMap<>();
  private long lastSystem = Long.MIN_VALUE;
  private Span lastSpan = Span.of(Instant.EPOCH, Instant.EPOCH.plusSeconds(1));

  /** The month that holds an instant. */
  void add(long systemId, ZoneId zone, Instant instant) {
    if (systemId == lastSystem && lastSpan.contains(instant)) {
      return;
    }
    CalendarMonth month = CalendarMonth.containing(instant, zone);
    months.computeIfAbsent(systemId, id -> new TreeSet<>()).add(month.month());
    lastSystem = systemId;
    lastSpan = month.span();
  }

  /** All months between two instants, those of both included. */
  void add(long systemId, ZoneId zone, Instant from, Instant to) {
    YearMonth last = YearMonth.from(to.atZone(zone));
    var set = months.computeIfAbsent(systemId, id -> new TreeSet<>());
    for (YearMonth month = YearMonth.from(from.atZone(zone));
        !month.isAfter(last);
        month = month.plusMonths(1)) {
      set.add(month);
    }
  }

  void publish(ApplicationEventPublisher events, String reason) {
    var touched = new ArrayList<Touched>();
    months.forEach((systemId, set) -> touched.addAll(ranges(systemId, set)));
    if (!touched.isEmpty()) {
      events.publishEvent(new FactsChanged(touched, reason));
    }
  }

  private static List<Touched> ranges(long systemId, TreeSet<YearMonth> months) {
    var ranges = new ArrayList<Touched>();
    YearMonth first = months.first();
    YearMonth last = first;
    for (YearMonth month : months) {
      if (month.isAfter(last.plusMonths(1))) {
        ranges.add(new Touched(systemId, first, last));
        first = month;
      }
      last = month;
    }
    ranges.add(new Touched(systemId, first, last));
    return ranges;
  }
}
