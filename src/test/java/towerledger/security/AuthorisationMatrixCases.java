package towerledger.security;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.AbstractMockHttpServletRequestBuilder;
import org.springframework.web.bind.annotation.RequestMethod;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;
import towerledger.SignedIn;
import towerledger.account.TokenScope;
import towerledger.account.Viewer;
import towerledger.account.ViewerAuthentication;
import towerledger.ledger.InventedPortfolio;
import towerledger.security.AuthorisationMatrix.Entry;

/**
 * Every route of the program × everybody who may come (nobody, the office, a technician, a
 * customer, tokens of every scope) × an own, a foreign and an absent thing.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class AuthorisationMatrixCases {

  private static final String OWN = "0";
  private static final String FOREIGN = "1";
  private static final String ABSENT = "X";
  private static final YearMonth LAST = YearMonth.of(2026, 10);

  @Autowired MockMvc mvc;
  @Autowired ApplicationContext context;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;

  /** Somebody who asks; without a token they ask as a page's reader. */
  private record Asker(String name, Viewer viewer, String token) {}

  private final List<Asker> readers = new ArrayList<>();
  private final List<Asker> programs = new ArrayList<>();

  @BeforeAll
  void letThemIn() {
    new InventedPortfolio(context, "MATRIX-").write(8, LAST.minusMonths(1), LAST);
    jdbc.sql(
            """
            INSERT INTO site_meter (code, site_id, system_id, role, unit, created_at)
            SELECT CONCAT('M-', code), site_id, id, 'makeup', 'gal', CURRENT_TIMESTAMP
            FROM site_system WHERE code LIKE 'MATRIX-%'""")
        .update();
    PlantedReport.write(jdbc, 980_000, "MATRIX-C0", "October");
    PlantedReport.write(jdbc, 980_001, "MATRIX-C1", "October");
    long ownSite =
        jdbc.sql("SELECT id FROM site_site WHERE code = 'MATRIX-S0'").query(Long.class).single();
    Viewer office = signedIn.office();
    Viewer technician = signedIn.technician("tech@matrix.test", ownSite);
    Viewer reader = signedIn.customer("reader@matrix.test", "MATRIX-C0");
    Viewer enterer = signedIn.customer("enterer@matrix.test", "MATRIX-C0", true);
    readers.add(new Asker("nobody", null, null));
    for (Viewer viewer : List.of(office, technician, reader, enterer)) {
      readers.add(new Asker(viewer.email(), viewer, null));
      programs.add(program(viewer, TokenScope.ALL, null));
    }
    for (Viewer viewer : List.of(office, technician, enterer)) {
      programs.add(program(viewer, TokenScope.READ, null));
      programs.add(program(viewer, TokenScope.WRITE_READINGS, null));
    }
    programs.add(new Asker("nobody", null, null));
    programs.add(program(office, TokenScope.ALL, "MATRIX-C0"));
    programs.add(program(office, TokenScope.READ, "MATRIX-C0"));
  }

  private Asker program(Viewer owner, TokenScope scope, String customer) {
    String secret = signedIn.token(owner, scope, customer);
    return new Asker(
        "token of %s, %s%s".formatted(owner.email(), scope, customer == null ? "" : ", bound"),
        signedIn.bearer(secret),
        secret);
  }

  static Stream<Entry> entries() {
    return AuthorisationMatrix.read().stream().filter(entry -> !entry.who().contains("password"));
  }

  @ParameterizedTest
  @MethodSource("entries")
  void letsInWhomTheMatrixNamesAndNobodyElse(Entry entry) throws Exception {
    SoftAssertions found = new SoftAssertions();
    boolean ofThings = entry.address().matches(".*\\{(system|site|meter|report)}.*");
    for (Asker asker : entry.isApi() ? programs : readers) {
      Map<String, MockHttpServletResponse> answers = new HashMap<>();
      for (String thing : ofThings ? List.of(OWN, FOREIGN, ABSENT) : List.of(OWN)) {
        String address = address(entry, thing);
        MockHttpServletResponse answer = ask(entry, address, asker);
        String what =
            "%s %s by %s: %d".formatted(entry.method(), address, asker.name(), answer.getStatus());
        found.assertThat(answer.getStatus()).as(what).isLessThan(500);
        found.assertThat(isLetIn(answer, address)).as(what).isEqualTo(entry.lets(asker.viewer()));
        answers.put(thing, answer);
      }
      Viewer viewer = asker.viewer();
      if (ofThings && viewer != null && !viewer.isOffice() && entry.lets(viewer)) {
        compare(entry, asker, answers, found);
      }
    }
    found.assertAll();
  }

  /** A thing of somebody else is not there, byte for byte; one's own is. */
  private static void compare(
      Entry entry, Asker asker, Map<String, MockHttpServletResponse> answers, SoftAssertions found)
      throws Exception {
    String what = "%s by %s".formatted(entry, asker.name());
    MockHttpServletResponse foreign = answers.get(FOREIGN);
    MockHttpServletResponse absent = answers.get(ABSENT);
    found.assertThat(foreign.getStatus()).as("%s, foreign", what).isEqualTo(404);
    found.assertThat(absent.getStatus()).as("%s, absent", what).isEqualTo(404);
    found.assertThat(text(foreign, FOREIGN)).as(what).isEqualTo(text(absent, ABSENT));
    found.assertThat(headers(foreign)).as(what).isEqualTo(headers(absent));
    if (entry.method().equals("GET")) {
      found.assertThat(answers.get(OWN).getStatus()).as("%s, own", what).isEqualTo(200);
    }
  }

  private static String text(MockHttpServletResponse answer, String thing) throws Exception {
    return answer
        .getContentAsString(StandardCharsets.UTF_8)
        .replace("MATRIX-T" + thing, "MATRIX-T?")
        .replace("MATRIX-S" + thing, "MATRIX-S?")
        .replaceAll("98000[0-9]", "98000?")
        .replaceAll("name=\"_csrf\" value=\"[^\"]*\"", "");
  }

  private static Map<String, List<String>> headers(MockHttpServletResponse answer) {
    Map<String, List<String>> headers = new HashMap<>();
    for (String name : answer.getHeaderNames()) {
      if (!name.equals("Set-Cookie")) {
        headers.put(name, answer.getHeaders(name));
      }
    }
    return headers;
  }

  private static String address(Entry entry, String thing) {
    return entry
        .address()
        .replace("{system}", "MATRIX-T" + thing)
        .replace("{site}", "MATRIX-S" + thing)
        .replace("{meter}", "M-MATRIX-T" + thing)
        .replace("{report}", thing.equals(ABSENT) ? "980009" : "98000" + thing)
        .replaceAll("\\{(person|token|finding)}", "999999999")
        .replace("{job}", "none")
        .replace("{schedule}", "none");
  }

  private MockHttpServletResponse ask(Entry entry, String address, Asker asker) throws Exception {
    AbstractMockHttpServletRequestBuilder<?> request = entry.request(URI.create(address));
    if (asker.token() != null) {
      request.header("Authorization", "Bearer " + asker.token());
      if (entry.pattern().endsWith("/imports")) {
        request.contentType("text/csv").content("");
      } else if (!entry.takesParts()) {
        request.contentType("application/json").content("{}");
      }
    } else if (!entry.isApi()) {
      request.with(csrf());
      if (asker.viewer() != null) {
        request.with(authentication(new ViewerAuthentication(asker.viewer())));
      }
    }
    return mvc.perform(request).andReturn().getResponse();
  }

  private static boolean isLetIn(MockHttpServletResponse answer, String address) {
    String to = String.valueOf(answer.getRedirectedUrl());
    boolean sentAway =
        to.startsWith("/sign-in") && !to.endsWith("signed-out")
            || address.equals("/") && to.startsWith("/") && !to.equals("/guide");
    return answer.getStatus() != 401 && answer.getStatus() != 403 && !sentAway;
  }

  @ParameterizedTest
  @MethodSource("entries")
  void refusesAFormWithoutItsToken(Entry entry) throws Exception {
    // Leaving a mailing list by one click, RFC 8058: the mail program knows no form.
    boolean oneClick = entry.pattern().equals("/unsubscribe/{token}");
    if (entry.isApi() || entry.method().equals("GET") || oneClick) {
      return;
    }
    MockHttpServletResponse answer =
        mvc.perform(
                entry
                    .request(URI.create(address(entry, OWN)))
                    .with(authentication(new ViewerAuthentication(signedIn.office()))))
            .andReturn()
            .getResponse();
    assertThat(answer.getStatus()).isEqualTo(403);
  }

  @Test
  void hasALineForEveryRouteAndARouteForEveryLine() {
    Set<String> routes = new TreeSet<>();
    context
        .getBeansOfType(RequestMappingHandlerMapping.class)
        .values()
        .forEach(
            mapping ->
                mapping
                    .getHandlerMethods()
                    .forEach(
                        (info, handler) -> {
                          if (handler.getBeanType().getName().startsWith("towerledger.")
                              || handler.getBeanType().getName().startsWith("org.springdoc.")) {
                            for (String pattern : info.getPatternValues()) {
                              for (String verb :
                                  AuthorisationMatrix.verbs(
                                      info.getMethodsCondition()
                                          .getMethods()
                                          .toArray(new RequestMethod[0]))) {
                                routes.add(AuthorisationMatrix.route(verb, pattern));
                              }
                            }
                          }
                        }));
    assertThat(routes)
        .as("routes and lines of " + AuthorisationMatrix.FILE)
        .containsExactlyInAnyOrderElementsOf(
            AuthorisationMatrix.read().stream().map(Entry::route).collect(Collectors.toSet()));
  }
}
