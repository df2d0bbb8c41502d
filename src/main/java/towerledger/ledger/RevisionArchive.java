package towerledger.ledger;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.site.Sites;

/**
 * Puts revisions that another installation kept into this one, so that a ledger that moves keeps
 * its closed months as they were closed. What this installation has reckoned itself is never
 * overwritten.
 */
@Service
public class RevisionArchive {

  private final Revisions revisions;
  private final Sites sites;
  private final JdbcClient client;
  private final ApplicationEventPublisher events;

  RevisionArchive(
      Revisions revisions, Sites sites, JdbcClient client, ApplicationEventPublisher events) {
    this.revisions = revisions;
    this.sites = sites;
    this.client = client;
    this.events = events;
  }

  /** What became of a kept revision. */
  public enum Fate {
    /** It is in the ledger now. */
    PUT,
    /** It was there. */
    THERE,
    /** The ledger has one of its own in its place, which stays. */
    OWN_STAYS
  }

  private record Key(long systemId, YearMonth month) {}

  /** Puts revisions, of any systems and in any order; tells what became of each. */
  @Transactional
  public List<Fate> put(List<KeptRevision> kept) {
    if (kept.isEmpty()) {
      return List.of();
    }
    Set<Long> systems = new HashSet<>();
    kept.forEach(revision -> systems.add(revision.systemId()));
    Map<Key, Map<Integer, String>> there = there(systems);
    Map<Key, Integer> standing = standing(systems);
    List<KeptRevision> fresh = new ArrayList<>();
    List<Fate> fates = new ArrayList<>();
    for (KeptRevision revision : kept) {
      Key key = new Key(revision.systemId(), revision.month());
      Map<Integer, String> month = there.computeIfAbsent(key, k -> new HashMap<>());
      String known = month.get(revision.number());
      Integer stands = standing.get(key);
      if (known != null) {
        fates.add(known.equals(revision.figuresHash()) ? Fate.THERE : Fate.OWN_STAYS);
      } else if (stands != null && revision.number() > stands) {
        fates.add(Fate.OWN_STAYS);
      } else {
        month.put(revision.number(), revision.figuresHash());
        fresh.add(stands == null ? revision : revision.followed());
        fates.add(Fate.PUT);
      }
    }
    if (!fresh.isEmpty()) {
      Map<Long, Revisions.Place> places = places(systems);
      revisions.putKept(fresh, places);
      places.values().stream()
          .map(Revisions.Place::siteId)
          .distinct()
          .forEach(site -> events.publishEvent(new MonthsReckoned(site)));
    }
    return fates;
  }

  private Map<Long, Revisions.Place> places(Collection<Long> systems) {
    Map<Long, Revisions.Place> places = new HashMap<>();
    sites
        .listSystems(systems)
        .forEach(
            system ->
                places.put(system.id(), new Revisions.Place(system.customerId(), system.siteId())));
    return places;
  }

  private Map<Key, Map<Integer, String>> there(Collection<Long> systems) {
    Map<Key, Map<Integer, String>> there = new HashMap<>();
    client
        .sql(
            """
            SELECT system_id, month_start, revision, figures_hash FROM ledger_revision
            WHERE system_id IN (:systems)""")
        .param("systems", systems)
        .query(
            row -> {
              there
                  .computeIfAbsent(
                      new Key(row.getLong(1), YearMonth.from(row.getObject(2, LocalDate.class))),
                      key -> new HashMap<>())
                  .put(row.getInt(3), row.getString(4));
            });
    return there;
  }

  private Map<Key, Integer> standing(Collection<Long> systems) {
    Map<Key, Integer> standing = new HashMap<>();
    client
        .sql(
            "SELECT system_id, month_start, revision FROM ledger_month WHERE system_id IN (:systems)")
        .param("systems", systems)
        .query(
            row -> {
              standing.put(
                  new Key(row.getLong(1), YearMonth.from(row.getObject(2, LocalDate.class))),
                  row.getInt(3));
            });
    return standing;
  }
}
