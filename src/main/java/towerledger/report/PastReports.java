package towerledger.report;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.site.SiteAccess;

/**
 * The reports that were sent, for whoever may see them: the office all, a customer their own. A
 * technician sees none, for a report carries prices.
 */
@Service
@Transactional(readOnly = true)
public class PastReports {

  private final JdbcClient jdbc;
  private final SiteAccess access;
  private final IssueTable issues;

  PastReports(JdbcClient jdbc, SiteAccess access, IssueTable issues) {
    this.jdbc = jdbc;
    this.access = access;
    this.issues = issues;
  }

  /**
   * A report that was sent.
   *
   * @param id key by which its forms are asked for
   * @param customer code of the customer
   * @param customerName its name
   * @param month what it is about
   * @param edition 1 for the first; more for one that corrects it
   * @param subject what it says in a line
   * @param language tag of the language that says it
   * @param decidedAt when it was decided to send it
   */
  public record PastReport(
      long id,
      String customer,
      String customerName,
      YearMonth month,
      int edition,
      String subject,
      String language,
      Instant decidedAt) {}

  private static final String SELECT =
      """
      SELECT i.id, c.code, c.name, i.month_start, i.edition, i.subject, i.language,
        i.decided_at
      FROM report_issue i JOIN account_customer c ON c.id = i.customer_id
      WHERE i.status = 'approved' AND\s""";

  /** Sent reports that the viewer may see, newest month first. */
  public List<PastReport> list(Viewer viewer) {
    return select(viewer, "", List.of());
  }

  /** A sent report with all its forms, if the viewer may see it. */
  public Optional<ReportCopy> findCopy(Viewer viewer, long id) {
    return find(viewer, id).map(report -> issues.getCopy(report.id()));
  }

  /** A sent report, if the viewer may see it. */
  public Optional<PastReport> find(Viewer viewer, long id) {
    return select(viewer, " AND i.id = ?", List.of(id)).stream().findFirst();
  }

  private List<PastReport> select(Viewer viewer, String condition, List<Object> more) {
    if (viewer.role() == Role.TECHNICIAN) {
      return List.of();
    }
    // a report is a customer's, not a site's: the scope of an office or customer names no site
    var scope = access.scope(viewer, "i.customer_id", "i.customer_id");
    List<Object> parameters = new ArrayList<>(scope.parameters());
    parameters.addAll(more);
    return jdbc.sql(
            SELECT
                + scope.sql()
                + condition
                + " ORDER BY i.month_start DESC, i.edition DESC, c.name, i.id LIMIT 1000")
        .params(parameters)
        .query(
            (row, number) ->
                new PastReport(
                    row.getLong(1),
                    row.getString(2),
                    row.getString(3),
                    YearMonth.from(row.getObject(4, LocalDate.class)),
                    row.getInt(5),
                    row.getString(6),
                    row.getString(7),
                    row.getObject(8, OffsetDateTime.class).toInstant()))
        .list();
  }
}
