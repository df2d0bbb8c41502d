package towerledger.security;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.AbstractMockHttpServletRequestBuilder;
import towerledger.SignedIn;
import towerledger.account.TokenScope;
import towerledger.account.Viewer;
import towerledger.account.ViewerAuthentication;
import towerledger.ledger.InventedPortfolio;
import towerledger.security.AuthorisationMatrix.Entry;

/**
 * Nothing that one customer is answered holds a code, a name or a figure of another: marks that
 * occur nowhere else are planted in all that the other has, and every route is asked.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class CanaryCases {

  private static final YearMonth LAST = YearMonth.of(2026, 10);

  /** 98,765,432 litres are 26,091,067 US gallons; both occur nowhere else. */
  private static final double LITRES = 98_765_432.1;

  /** In all that the other customer has: names, codes, words of visits, figures of every form. */
  private static final List<String> CANARIES =
      List.of(
          "Zephyrine",
          "Quoxley",
          "Vexmoor",
          "krellwood",
          "brindlewick",
          "CANARYB-",
          "9.87654321E7",
          "2609106",
          "26,100,000",
          "918,273,645",
          "7351.29");

  /** The same, and the register as a file of figures would write it. */
  private static final List<String> FORBIDDEN =
      Stream.concat(CANARIES.stream(), Stream.of("918273645")).toList();

  @Autowired MockMvc mvc;
  @Autowired ApplicationContext context;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;

  private Viewer reader;
  private Viewer enterer;
  private Viewer other;

  @BeforeAll
  void plant() {
    new InventedPortfolio(context, "CANARYA-").write(4, LAST.minusMonths(2), LAST);
    new InventedPortfolio(context, "CANARYB-").write(4, LAST.minusMonths(2), LAST);
    for (String sql :
        List.of(
            "UPDATE account_customer SET name = 'Zephyrine Works' WHERE code LIKE 'CANARYB-%'",
            "UPDATE site_site SET name = 'Quoxley annex' WHERE code LIKE 'CANARYB-%'",
            "UPDATE site_system SET name = 'Vexmoor loop' WHERE code LIKE 'CANARYB-%'",
            revision(
                Map.of(
                    "revision", "revision + 1",
                    "makeup_l", String.valueOf(LITRES),
                    "loss_amount", "7351.29",
                    "waste", "TRUE",
                    "flagged", "TRUE")),
            """
            UPDATE ledger_month SET revision = revision + 1
            WHERE system_id IN (SELECT id FROM site_system WHERE code LIKE 'CANARYB-%')""",
            """
            INSERT INTO site_meter (code, site_id, system_id, role, unit, created_at)
            SELECT CONCAT('M-', code), site_id, id, 'makeup', 'gal', CURRENT_TIMESTAMP
            FROM site_system WHERE code LIKE 'CANARY%'""",
            """
            INSERT INTO meter_register_reading
              (customer_id, meter_id, read_at, register, recorded_at, recorded_by)
            SELECT y.customer_id, m.id, TIMESTAMP WITH TIME ZONE '2026-10-31 12:00:00+00:00',
              918273645, CURRENT_TIMESTAMP, 'krellwood'
            FROM site_meter m JOIN site_system y ON y.id = m.system_id
            WHERE m.code LIKE 'M-CANARYB-%'""",
            """
            INSERT INTO job_run (id, kind, status, message, customer_id, actor, created_at)
            SELECT 'canary-job', 'reckon', 'done', 'krellwood Zephyrine', id, 'krellwood',
              CURRENT_TIMESTAMP
            FROM account_customer WHERE code = 'CANARYB-C0'""")) {
      jdbc.sql(sql).update();
    }
    PlantedReport.write(jdbc, 990_000, "CANARYA-C0", "October");
    PlantedReport.write(jdbc, 990_001, "CANARYB-C0", "brindlewick of Zephyrine");
    reader = signedIn.customer("reader@canary.test", "CANARYA-C0");
    enterer = signedIn.customer("enterer@canary.test", "CANARYA-C0", true);
    other = signedIn.customer("other@canary.test", "CANARYB-C0", true);
  }

  /**
   * The standing months once more with other figures: the ledger takes no change, only additions.
   */
  private String revision(Map<String, String> figures) {
    List<String> columns =
        jdbc.sql(
                """
                SELECT LOWER(column_name) FROM information_schema.columns
                WHERE LOWER(table_name) = 'ledger_revision' AND LOWER(table_schema) = 'public'""")
            .query(String.class)
            .list();
    return """
        INSERT INTO ledger_revision (%s)
        SELECT %s FROM ledger_revision r
        WHERE system_id IN (SELECT id FROM site_system WHERE code LIKE 'CANARYB-%%')"""
        .formatted(
            String.join(", ", columns),
            columns.stream()
                .map(column -> figures.getOrDefault(column, column))
                .collect(Collectors.joining(", ")));
  }

  @Test
  void answersOneCustomerWithNothingOfAnother() throws Exception {
    SoftAssertions found = new SoftAssertions();
    List<String> tokens =
        List.of(
            signedIn.token(reader, TokenScope.READ),
            signedIn.token(enterer, TokenScope.ALL),
            signedIn.token(signedIn.office(), TokenScope.ALL, "CANARYA-C0"));
    int asked = 0;
    for (Entry entry : AuthorisationMatrix.read()) {
      if (entry.who().contains("password")) {
        continue;
      }
      for (String address : addresses(entry)) {
        for (String token : tokens) {
          asked += check(entry, address, null, token, found);
        }
        asked += check(entry, address, reader, null, found);
        asked += check(entry, address, enterer, null, found);
        asked += check(entry, address, null, null, found);
      }
    }
    found.assertAll();
    assertThat(asked).isGreaterThan(300);
  }

  /** The marks are where they should be: else the test above could not fail. */
  @Test
  void showsTheOtherCustomerTheirOwnMarks() throws Exception {
    StringBuilder all = new StringBuilder();
    String token = signedIn.token(other, TokenScope.ALL);
    for (Entry entry : AuthorisationMatrix.read()) {
      if (entry.method().equals("GET")) {
        for (String address : addresses(entry)) {
          all.append(text(ask(entry, address, other, null)));
          all.append(text(ask(entry, address, null, token)));
        }
      }
    }
    List<String> unseen = new ArrayList<>(CANARIES);
    unseen.removeIf(all.toString()::contains);
    assertThat(unseen).as("marks that no page shows to whom they belong").isEmpty();
  }

  private int check(Entry entry, String address, Viewer viewer, String token, SoftAssertions found)
      throws Exception {
    MockHttpServletResponse answer = ask(entry, address, viewer, token);
    // What was asked for may be named in the refusal; nothing else may.
    String said =
        (text(answer) + answer.getHeaderNames().stream().map(answer::getHeaders).toList())
            .replaceAll("(M-)?CANARYB-[TSC]0|CANARYB-[TSC]0|canary-job", "");
    for (String canary : FORBIDDEN) {
      found
          .assertThat(said.contains(canary))
          .as("%s %s tells %s", entry.method(), address, canary)
          .isFalse();
    }
    return 1;
  }

  private MockHttpServletResponse ask(Entry entry, String address, Viewer viewer, String token)
      throws Exception {
    AbstractMockHttpServletRequestBuilder<?> request = entry.request(URI.create(address));
    if (token != null) {
      request.header("Authorization", "Bearer " + token);
    }
    if (entry.pattern().endsWith("/imports")) {
      request
          .param("file", "register_readings")
          .contentType("text/csv")
          .content(
              "meter,read_at,register\nM-CANARYB-T0,2026-10-30,5\nM-CANARYX-T0,2026-10-30,5\n");
    } else if (entry.isApi() && !entry.takesParts()) {
      request.contentType("application/json").content("{\"systems\": [\"CANARYB-T0\"]}");
    }
    request.with(csrf());
    if (viewer != null) {
      request.with(authentication(new ViewerAuthentication(viewer)));
    }
    return mvc.perform(request).andReturn().getResponse();
  }

  private static String text(MockHttpServletResponse answer) throws Exception {
    return answer.getContentAsString(StandardCharsets.UTF_8);
  }

  private static Set<String> addresses(Entry entry) {
    Set<String> addresses = new LinkedHashSet<>();
    for (String prefix : List.of("CANARYA-", "CANARYB-")) {
      addresses.add(
          entry
              .address()
              .replace("{system}", prefix + "T0")
              .replace("{site}", prefix + "S0")
              .replace("{meter}", "M-" + prefix + "T0")
              .replaceAll("\\{(person|token|finding)}", "1")
              .replace("{report}", prefix.equals("CANARYA-") ? "990000" : "990001")
              .replace("{job}", "canary-job")
              .replace("{schedule}", "none"));
    }
    if (entry.address().contains("system={system}")) {
      addresses.add(entry.address().replaceAll("&?system=\\{system}", ""));
    }
    return addresses;
  }
}
