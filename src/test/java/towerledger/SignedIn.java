package towerledger;

import java.time.Duration;
import java.util.Currency;
import java.util.List;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors;
import org.springframework.test.web.servlet.request.RequestPostProcessor;
import towerledger.account.Actor;
import towerledger.account.CustomerDetails;
import towerledger.account.Customers;
import towerledger.account.Role;
import towerledger.account.TokenScope;
import towerledger.account.Tokens;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.account.ViewerAuthentication;

/**
 * Makes people of every role for tests and lets requests be theirs.
 *
 * <p>{@code mvc.perform(get("/").with(SignedIn.page(signedIn.office())))} is a page asked for by a
 * signed-in person; {@code mvc.perform(get("/api/v1/ledger").with(signedIn.api(viewer)))} is a
 * program with a token; {@code signedIn.token(viewer)} is the secret for real HTTP.
 */
@TestComponent
public class SignedIn {

  private static final Actor TEST = Actor.system("test");

  private final JdbcClient jdbc;
  private final Customers customers;
  private final Tokens tokens;

  SignedIn(JdbcClient jdbc, Customers customers, Tokens tokens) {
    this.jdbc = jdbc;
    this.customers = customers;
    this.tokens = tokens;
  }

  /** E-mail of the office account that the application made at its first start. */
  public String adminEmail() {
    return FreshDatabase.ADMIN_EMAIL;
  }

  /** Its password. */
  public String adminPassword() {
    return FreshDatabase.ADMIN_PASSWORD;
  }

  /** The office account of the first start. */
  public Viewer office() {
    long id =
        jdbc.sql("SELECT id FROM account_person WHERE email = ?")
            .param(FreshDatabase.ADMIN_EMAIL)
            .query(Long.class)
            .single();
    return viewer(id, FreshDatabase.ADMIN_EMAIL, Role.OFFICE, null, false);
  }

  /** A technician, assigned to the sites with these keys. */
  public Viewer technician(String email, long... siteIds) {
    long id = person(email, Role.TECHNICIAN, null, false);
    for (long siteId : siteIds) {
      jdbc.sql(
              """
              INSERT INTO site_assignment (person_id, site_id)
              SELECT CAST(? AS BIGINT), CAST(? AS BIGINT) WHERE NOT EXISTS
                (SELECT 1 FROM site_assignment WHERE person_id = ? AND site_id = ?)""")
          .params(id, siteId, id, siteId)
          .update();
    }
    return viewer(id, email, Role.TECHNICIAN, null, false);
  }

  /** A login of the customer with this code, which is made if there is none. */
  public Viewer customer(String email, String customerCode) {
    return customer(email, customerCode, false);
  }

  /** The same; may hand in readings or not. */
  public Viewer customer(String email, String customerCode, boolean mayEnter) {
    long customerId = customerId(customerCode);
    return viewer(
        person(email, Role.CUSTOMER, customerId, mayEnter),
        email,
        Role.CUSTOMER,
        customerId,
        mayEnter);
  }

  /** Key of the customer with this code, which is made if there is none. */
  public long customerId(String code) {
    if (customers.find(code).isEmpty()) {
      customers.put(
          new CustomerDetails(
              code, "Customer " + code, null, List.of(), Currency.getInstance("USD")),
          TEST);
    }
    return customers.find(code).orElseThrow().id();
  }

  /** The secret of a new token of this viewer, with all of their power. */
  public String token(Viewer viewer) {
    return token(viewer, TokenScope.ALL);
  }

  /** The secret of a new token of this viewer and scope. */
  public String token(Viewer viewer, TokenScope scope) {
    return token(viewer, scope, null);
  }

  /** The same, bound to the customer of a code; null for none. */
  public String token(Viewer viewer, TokenScope scope, String customerCode) {
    return tokens.issue(viewer, "test", scope, customerCode, Duration.ofDays(1), TEST).secret();
  }

  /** Who presents a token. */
  public Viewer bearer(String secret) {
    return tokens.viewer(secret).orElseThrow();
  }

  /** Sends a request with a token of this viewer. */
  public RequestPostProcessor api(Viewer viewer) {
    String secret = token(viewer);
    return request -> authorized(request, secret);
  }

  /** Sends a request as a signed-in person, with a CSRF token where one is needed. */
  public static RequestPostProcessor page(Viewer viewer) {
    var signedIn =
        SecurityMockMvcRequestPostProcessors.authentication(new ViewerAuthentication(viewer));
    var csrf = SecurityMockMvcRequestPostProcessors.csrf();
    return request -> csrf.postProcessRequest(signedIn.postProcessRequest(request));
  }

  private static MockHttpServletRequest authorized(MockHttpServletRequest request, String secret) {
    request.addHeader("Authorization", "Bearer " + secret);
    return request;
  }

  private long person(String email, Role role, Long customerId, boolean mayEnter) {
    jdbc.sql(
            """
            INSERT INTO account_person (email, name, role, customer_id, may_enter, created_at)
            SELECT CAST(? AS VARCHAR), CAST(? AS VARCHAR), CAST(? AS VARCHAR), CAST(? AS BIGINT),
              CAST(? AS BOOLEAN), CURRENT_TIMESTAMP
            WHERE NOT EXISTS (SELECT 1 FROM account_person WHERE email = ?)""")
        .param(email)
        .param(email)
        .param(role.name())
        .param(customerId)
        .param(mayEnter)
        .param(email)
        .update();
    return jdbc.sql("SELECT id FROM account_person WHERE email = ?")
        .param(email)
        .query(Long.class)
        .single();
  }

  private static Viewer viewer(
      long id, String email, Role role, Long customerId, boolean mayEnter) {
    return new Viewer(
        id, email, email, role, customerId, TokenScope.ALL, mayEnter, UnitPreference.US, "en");
  }
}
