package towerledger.site;

import java.util.List;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Person;

/** Which sites a technician looks after, and hence may see. */
@Service
@Transactional
public class Assignments {

  private final SiteRepository sites;
  private final Sites lookup;
  private final JdbcClient jdbc;
  private final ChangeHistory history;

  Assignments(SiteRepository sites, Sites lookup, JdbcClient jdbc, ChangeHistory history) {
    this.sites = sites;
    this.lookup = lookup;
    this.jdbc = jdbc;
    this.history = history;
  }

  /** The sites of a technician, by code. */
  @Transactional(readOnly = true)
  public List<Site> list(long personId) {
    return sites.findAssigned(personId);
  }

  /**
   * Assigns a site; assigning it again changes nothing.
   *
   * @throws UnknownCodeException when there is no such site
   */
  public void assign(Person technician, String siteCode, Actor actor) {
    Site site = lookup.getSite(siteCode);
    int added =
        jdbc.sql(
                """
                INSERT INTO site_assignment (person_id, site_id)
                SELECT CAST(? AS BIGINT), CAST(? AS BIGINT) WHERE NOT EXISTS
                  (SELECT 1 FROM site_assignment WHERE person_id = ? AND site_id = ?)""")
            .params(technician.id(), site.id(), technician.id(), site.id())
            .update();
    if (added > 0) {
      record(actor, "assigned", technician, site);
    }
  }

  /**
   * Takes a site off a technician; one that was not assigned changes nothing.
   *
   * @throws UnknownCodeException when there is no such site
   */
  public void release(Person technician, String siteCode, Actor actor) {
    Site site = lookup.getSite(siteCode);
    int removed =
        jdbc.sql("DELETE FROM site_assignment WHERE person_id = ? AND site_id = ?")
            .params(technician.id(), site.id())
            .update();
    if (removed > 0) {
      record(actor, "released", technician, site);
    }
  }

  private void record(Actor actor, String action, Person technician, Site site) {
    history.record(
        actor,
        action,
        "person",
        technician.email(),
        site.customerId(),
        null,
        Map.of("site", site.code()));
  }
}
