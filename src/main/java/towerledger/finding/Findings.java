package towerledger.finding;

import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.People;
import towerledger.account.Viewer;
import towerledger.query.Question;
import towerledger.query.Questions;
import towerledger.site.SiteAccess;

/** Findings as people see and work them. */
@Service
@Transactional
public class Findings {

  private static final int LONGEST_NOTE = 2000;

  private static final Set<FindingStatus> UNDER_WAY =
      EnumSet.of(FindingStatus.ASSIGNED, FindingStatus.WORKED, FindingStatus.NOT_YET_PROVABLE);

  private static final String SELECT =
      """
      SELECT f.*, y.code AS system_code, y.name AS system_name, s.code AS site_code,
        s.name AS site_name, s.time_zone, c.code AS customer_code, c.name AS customer_name,
        p.name AS assignee_name
      FROM %s
      JOIN site_system y ON y.id = f.system_id
      JOIN site_site s ON s.id = f.site_id
      JOIN account_customer c ON c.id = f.customer_id
      LEFT JOIN account_person p ON p.id = f.assignee_id
      """;

  private static final String SELECT_ALL = SELECT.formatted("finding_finding f");

  private static final String DEAREST_FIRST =
      " ORDER BY CASE WHEN f.yearly_amount IS NULL THEN 1 ELSE 0 END, f.yearly_amount DESC, f.id";

  private final JdbcClient jdbc;
  private final Questions questions;
  private final SiteAccess access;
  private final FindingRows rows;
  private final People people;
  private final ChangeHistory history;
  private final Clock clock;

  Findings(
      JdbcClient jdbc,
      Questions questions,
      SiteAccess access,
      FindingRows rows,
      People people,
      ChangeHistory history,
      Clock clock) {
    this.jdbc = jdbc;
    this.questions = questions;
    this.access = access;
    this.rows = rows;
    this.people = people;
    this.history = history;
    this.clock = clock;
  }

  /**
   * Visible findings of some statuses, dearest first.
   *
   * @param offset how many to pass over
   * @param limit how many at most
   */
  @Transactional(readOnly = true)
  public List<Finding> list(
      Viewer viewer, Collection<FindingStatus> statuses, int offset, int limit) {
    var scope = access.scope(viewer, "f.customer_id", "f.site_id");
    List<Object> parameters = new ArrayList<>(scope.parameters());
    parameters.add(offset);
    parameters.add(limit);
    String dearest =
        "(SELECT f.* FROM finding_finding f WHERE "
            + scope.sql()
            + " AND f.status IN ("
            + names(statuses)
            + ")"
            + DEAREST_FIRST
            + " OFFSET ? ROWS FETCH NEXT ? ROWS ONLY) f";
    return jdbc.sql(SELECT.formatted(dearest) + DEAREST_FIRST)
        .params(parameters)
        .query(FindingRows::finding)
        .list();
  }

  /** How many there are of each status; a status without findings is left out. */
  @Transactional(readOnly = true)
  public Map<FindingStatus, Long> count(Viewer viewer) {
    var scope = access.scope(viewer, "f.customer_id", "f.site_id");
    Map<FindingStatus, Long> counts = new EnumMap<>(FindingStatus.class);
    jdbc.sql(
            "SELECT f.status, COUNT(*) AS findings FROM finding_finding f WHERE "
                + scope.sql()
                + " GROUP BY f.status")
        .params(scope.parameters())
        .query(
            row -> {
              counts.put(FindingStatus.ofCode(row.getString("status")), row.getLong("findings"));
            });
    return counts;
  }

  /** How many visible findings somebody was sent to and has not worked yet. */
  @Transactional(readOnly = true)
  public long countAssignedTo(Viewer viewer) {
    var scope = access.scope(viewer, "f.customer_id", "f.site_id");
    return jdbc.sql(
            "SELECT COUNT(*) FROM finding_finding f WHERE f.status = '"
                + FindingStatus.ASSIGNED.code()
                + "' AND f.assignee_id = ? AND "
                + scope.sql())
        .param(viewer.personId())
        .params(scope.parameters())
        .query(Long.class)
        .single();
  }

  private static String names(Collection<FindingStatus> statuses) {
    return statuses.stream()
        .map(status -> "'" + status.code() + "'")
        .collect(Collectors.joining(", "));
  }

  /** Findings of one system, newest first. */
  @Transactional(readOnly = true)
  public List<Finding> listOf(long systemId) {
    return questions.answer(of(systemId));
  }

  /** The same as a question. */
  public static Question<List<Finding>> of(long systemId) {
    return Question.rows(
        SELECT_ALL + "WHERE f.system_id = ? ORDER BY f.last_month DESC, f.id DESC",
        List.of(systemId),
        FindingRows::finding);
  }

  /**
   * Newest finding under way of each system: somebody is sent, or work is done and not yet proven.
   * The caller has made sure that its reader may see the systems.
   *
   * @param systems codes of systems, a page of them at most
   */
  @Transactional(readOnly = true)
  public Map<String, Finding> findUnderWay(Collection<String> systems) {
    if (systems.isEmpty()) {
      return Map.of();
    }
    return jdbc
        .sql(
            SELECT_ALL
                + "WHERE y.code IN ("
                + systems.stream().map(code -> "?").collect(Collectors.joining(", "))
                + ") AND f.status IN ("
                + names(UNDER_WAY)
                + ")")
        .params(List.copyOf(systems))
        .query(FindingRows::finding)
        .list()
        .stream()
        .collect(
            Collectors.toMap(
                finding -> finding.of().system(),
                finding -> finding,
                (one, other) -> one.id() > other.id() ? one : other));
  }

  /** The finding with a number, if this viewer may see it. */
  @Transactional(readOnly = true)
  public Optional<Finding> find(Viewer viewer, long id) {
    var scope = access.scope(viewer, "f.customer_id", "f.site_id");
    List<Object> parameters = new ArrayList<>(List.of(id));
    parameters.addAll(scope.parameters());
    return jdbc.sql(SELECT_ALL + "WHERE f.id = ? AND " + scope.sql())
        .params(parameters)
        .query(FindingRows::finding)
        .optional();
  }

  /** What happened to a finding, oldest first. */
  @Transactional(readOnly = true)
  public List<Finding.Step> listSteps(Finding finding) {
    return jdbc.sql(
            """
            SELECT happened_at, actor, kind, note FROM finding_step WHERE finding_id = ?
            ORDER BY id\
            """)
        .param(finding.id())
        .query(
            (row, number) ->
                new Finding.Step(
                    row.getObject("happened_at", OffsetDateTime.class).toInstant(),
                    row.getString("actor"),
                    row.getString("kind"),
                    Optional.ofNullable(row.getString("note")).orElse("")))
        .list();
  }

  /** Who may be sent to a finding's site: the office and the technicians assigned to it. */
  @Transactional(readOnly = true)
  public List<Finding.Assignee> listAssignable(Finding finding) {
    return jdbc.sql(
            """
            SELECT p.id, p.name FROM account_person p
            WHERE p.enabled AND (p.role = 'OFFICE' OR (p.role = 'TECHNICIAN' AND p.id IN
              (SELECT a.person_id FROM site_assignment a WHERE a.site_id = ?)))
            ORDER BY p.role DESC, p.name\
            """)
        .param(finding.of().siteId())
        .query((row, number) -> new Finding.Assignee(row.getLong("id"), row.getString("name")))
        .list();
  }

  /**
   * Sends somebody, and tells them by letter unless they send themselves.
   *
   * @param version the version that was read
   * @throws StaleFindingException when it was changed since
   * @throws IllegalArgumentException when nobody such may be sent there
   */
  public void assign(Actor actor, Finding finding, long version, long personId, String note) {
    Finding.Assignee who =
        listAssignable(finding).stream()
            .filter(person -> person.id() == personId)
            .findFirst()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "person %d may not be sent to site %s; assign the site to them first"
                            .formatted(personId, finding.of().site())));
    claim(finding, version);
    jdbc.sql("UPDATE finding_finding SET assignee_id = ?, status = ? WHERE id = ?")
        .params(
            personId,
            (finding.status().awaitsWork() ? FindingStatus.ASSIGNED : finding.status()).code(),
            finding.id())
        .update();
    step(actor, finding, "assigned", note.isBlank() ? who.name() : who.name() + ": " + note);
    if (!people.get(personId).email().equalsIgnoreCase(actor.name())) {
      people.tell(
          personId,
          "assigned",
          "/findings/" + finding.id(),
          List.of(
              finding.of().systemName(),
              finding.of().siteName(),
              finding.of().customerName(),
              note.strip()));
    }
  }

  /**
   * Writes a note.
   *
   * @throws IllegalArgumentException when it is empty or too long
   */
  public void note(Actor actor, Finding finding, String note) {
    if (note.isBlank()) {
      throw new IllegalArgumentException("the note is empty; write what was seen or agreed");
    }
    step(actor, finding, "noted", note);
  }

  /**
   * Marks it as worked; what it saved is worked out as the months since come in.
   *
   * @param day when, in the site's calendar
   * @throws StaleFindingException when it was changed since
   * @throws IllegalArgumentException when the day lies ahead, or before the fault was flagged
   */
  public void markWorked(
      Actor actor, Finding finding, long version, LocalDate day, String whatWasDone) {
    ZoneId zone = ZoneId.of(finding.of().zone());
    LocalDate today = LocalDate.ofInstant(clock.instant(), zone);
    LocalDate earliest = finding.onset().orElse(finding.first()).atDay(1);
    if (day.isAfter(today) || day.isBefore(earliest)) {
      throw new IllegalArgumentException(
          "%s lies outside %s (when it began) to %s (today)".formatted(day, earliest, today));
    }
    if (whatWasDone.isBlank()) {
      throw new IllegalArgumentException("say in a few words what was done");
    }
    claim(finding, version);
    rows.setWorked(finding.id(), day.atTime(12, 0).atZone(zone).toInstant());
    rows.setStatus(finding.id(), FindingStatus.WORKED);
    step(actor, finding, "worked", day + ": " + whatWasDone);
  }

  /** Takes the version that was read, once. */
  private void claim(Finding finding, long version) {
    int changed =
        jdbc.sql("UPDATE finding_finding SET version = version + 1 WHERE id = ? AND version = ?")
            .params(finding.id(), version)
            .update();
    if (changed == 0) {
      throw new StaleFindingException(finding.id());
    }
  }

  private void step(Actor actor, Finding finding, String kind, String note) {
    if (note.length() > LONGEST_NOTE) {
      throw new IllegalArgumentException(
          "the text has %d characters; at most %d are kept".formatted(note.length(), LONGEST_NOTE));
    }
    rows.addStep(finding.id(), actor.name(), kind, note.strip());
    history.record(
        actor,
        kind,
        "finding",
        String.valueOf(finding.id()),
        null,
        finding.status().code(),
        note.strip());
  }
}
