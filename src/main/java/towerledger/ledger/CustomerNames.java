package towerledger.ledger;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.springframework.stereotype.Component;
import towerledger.account.Viewer;
import towerledger.query.Question;
import towerledger.site.SiteAccess;

/** Names of the customers whose months a viewer may choose from. */
@Component
public class CustomerNames {

  /** Customers with a site that the condition lets pass. */
  private static final String VISIBLE =
      """
      SELECT c.code, c.name FROM account_customer c WHERE EXISTS
        (SELECT 1 FROM site_site s WHERE s.customer_id = c.id AND %s)""";

  private final SiteAccess access;

  CustomerNames(SiteAccess access) {
    this.access = access;
  }

  /**
   * Names of the visible customers by code, in order of name, as a question.
   *
   * @param limit how many at most
   */
  public Question<Map<String, String>> first(Viewer viewer, int limit) {
    var scope = access.scope(viewer, "s.customer_id", "s.id");
    List<Object> parameters = new ArrayList<>(scope.parameters());
    parameters.add(limit);
    return names(
        VISIBLE.formatted(scope.sql()) + " ORDER BY c.name, c.code FETCH FIRST ? ROWS ONLY",
        parameters);
  }

  /** The name of a visible customer by code, as a question; empty when there is none. */
  public Question<Map<String, String>> one(Viewer viewer, String code) {
    var scope = access.scope(viewer, "s.customer_id", "s.id");
    List<Object> parameters = new ArrayList<>(scope.parameters());
    parameters.add(code);
    return names(VISIBLE.formatted(scope.sql()) + " AND c.code = ?", parameters);
  }

  private static Question<Map<String, String>> names(String sql, List<Object> parameters) {
    return Question.rows(
            sql, parameters, (row, number) -> Map.entry(row.getString(1), row.getString(2)))
        .then(
            rows -> {
              Map<String, String> names = new LinkedHashMap<>();
              rows.forEach(row -> names.put(row.getKey(), row.getValue()));
              return names;
            });
  }
}
