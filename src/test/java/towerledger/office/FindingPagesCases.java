package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import towerledger.MailServer;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.account.Viewer;
import towerledger.finding.Finding;
import towerledger.finding.FindingStatus;
import towerledger.finding.Findings;
import towerledger.ledger.InventedPortfolio;
import towerledger.ledger.MonthsReckoned;

/** From a flagged month to a finding that somebody works. */
abstract class FindingPagesCases extends PageCases {

  private static final String OWN =
      """
      FROM finding_finding f JOIN site_system y ON y.id = f.system_id
      WHERE y.code LIKE 'FINDPAGE-%' AND f.status IN ('open', 'assigned') AND f.waste\
      """;

  @Autowired ApplicationContext context;
  @Autowired Findings findings;

  @BeforeEach
  void writeALedger() {
    if (count("SELECT COUNT(*) FROM account_customer WHERE code LIKE 'FINDPAGE-%'") == 0) {
      YearMonth now = YearMonth.now(java.time.Clock.systemUTC());
      new InventedPortfolio(context, "FINDPAGE-")
          .write(24, now.minusMonths(12), now.minusMonths(1));
    }
  }

  private long anyOpen() {
    return jdbc.sql("SELECT MAX(f.id) " + OWN).query(Long.class).single();
  }

  private long version(long id) {
    return count("SELECT version FROM finding_finding WHERE id = " + id);
  }

  private long siteOf(long id) {
    return count("SELECT site_id FROM finding_finding WHERE id = " + id);
  }

  private MockHttpServletRequestBuilder send(long id, String what, Viewer viewer) {
    return post("/findings/" + id + "/" + what).with(SignedIn.page(viewer));
  }

  @Test
  void opensOneFindingForEverySystemThatIsFlaggedNow() {
    long flagged =
        count(
            """
            SELECT COUNT(*) FROM ledger_month m JOIN site_system y ON y.id = m.system_id
            WHERE y.code LIKE 'FINDPAGE-%' AND m.flagged AND m.month_start =
              (SELECT MAX(n.month_start) FROM ledger_month n WHERE n.system_id = m.system_id)\
            """);
    long unsettled =
        count(
            """
            SELECT COUNT(*) FROM finding_finding f JOIN site_system y ON y.id = f.system_id
            WHERE y.code LIKE 'FINDPAGE-%' AND f.status <> 'ended'\
            """);

    assertThat(flagged).isPositive().isEqualTo(unsettled);
  }

  @Test
  void openingTheSameTwiceChangesNothing() {
    String all = "SELECT COUNT(*) FROM finding_finding";
    long before = count(all);
    long steps = count("SELECT COUNT(*) FROM finding_step");

    context.publishEvent(new MonthsReckoned(siteOf(anyOpen())));

    assertThat(count(all)).isEqualTo(before);
    assertThat(count("SELECT COUNT(*) FROM finding_step")).isEqualTo(steps);
  }

  @Test
  void leadsFromTheListToAssigningAndWorkingIt() throws Exception {
    long id = anyOpen();
    Viewer technician = signedIn.technician("roof@findpage.test", siteOf(id));
    assertThat(open("/findings")).contains("/findings/" + id);
    String page = open("/findings/" + id);
    assertThat(page)
        .contains("Check first")
        .contains("Bring: ")
        .contains("Lock out and tag out")
        .contains("roof@findpage.test", "has been losing water since");

    int letters = MailServer.lettersTo(technician.email()).size();
    for (Viewer sent : List.of(signedIn.office(), technician)) {
      mvc.perform(
              send(id, "assign", signedIn.office())
                  .param("version", String.valueOf(version(id)))
                  .param("person", String.valueOf(sent.personId()))
                  .param("note", "before noon"))
          .andExpect(redirectedUrl("/findings/" + id));
    }
    assertThat(open("/findings/" + id)).contains("before noon").contains("assigned");
    assertThat(MailServer.awaitLetter(technician.email(), letters + 1))
        .contains(underWay(id).of().systemName(), "before noon", "/findings/" + id);
    // nobody is written to of what they did themselves
    assertThat(MailServer.lettersTo(signedIn.office().email()))
        .noneSatisfy(letter -> assertThat(letter.getSubject()).startsWith("You are sent to"));
    assertThat(underWay(id).assignee()).map(Finding.Assignee::id).hasValue(technician.personId());

    String system = underWay(id).of().system();
    assertThat(open("/rounds", technician)).contains("One finding is assigned to you.");
    assertThat(open("/rounds/" + system, technician))
        .contains("To be worked here:", "/findings/" + id);
    assertThat(open("/findings/" + id, technician)).contains("href=\"/rounds/" + system + "\"");

    String day =
        jdbc.sql("SELECT last_month FROM finding_finding WHERE id = ?")
            .param(id)
            .query(String.class)
            .single();
    mvc.perform(
            send(id, "work", technician)
                .param("version", String.valueOf(version(id)))
                .param("day", day)
                .param("note", "new seat and washer"))
        .andExpect(redirectedUrl("/findings/" + id));
    assertThat(open("/findings/" + id, technician))
        .contains("new seat and washer")
        .contains("no whole month has passed since", "/tower\"", " lost water (")
        .doesNotContain("$", "has been losing water", "href=\"/systems/", "second lost");
    assertThat(open("/rounds/" + system, technician)).doesNotContain("To be worked here:");
    assertThat(open("/rounds", technician)).doesNotContain("finding is assigned to you");
    assertThat(underWay(id).status()).isEqualTo(FindingStatus.WORKED);
  }

  /** As the month review asks for it. */
  private Finding underWay(long id) {
    String system =
        jdbc.sql(
                """
                SELECT y.code FROM finding_finding f JOIN site_system y ON y.id = f.system_id
                WHERE f.id = ?""")
            .param(id)
            .query(String.class)
            .single();
    return Objects.requireNonNull(findings.findUnderWay(List.of(system, "no such")).get(system));
  }

  @Test
  void showsWhatVisitsSinceItBeganSawAndDid() throws Exception {
    long id = anyOpen();
    assertThat(open("/findings/" + id)).doesNotContain("Visits while it lasted");
    Finding finding = findings.find(signedIn.office(), id).orElseThrow();
    long system =
        jdbc.sql("SELECT system_id FROM finding_finding WHERE id = ?")
            .param(id)
            .query(Long.class)
            .single();
    visit(system, finding.began().minusSeconds(86_400), "float looked well");
    visit(system, finding.began().plusSeconds(86_400), "float arm bent straight");

    assertThat(open("/findings/" + id))
        .contains("Visits while it lasted", "float arm bent straight")
        .doesNotContain("float looked well");
  }

  private void visit(long system, Instant at, String done) {
    jdbc.sql(
            """
            INSERT INTO logsheet_visit (customer_id, system_id, visited_at, work_done)
            SELECT s.customer_id, y.id, ?, ? FROM site_system y
            JOIN site_site s ON s.id = y.site_id WHERE y.id = ?""")
        .params(at.atOffset(ZoneOffset.UTC), done, system)
        .update();
  }

  @Test
  void tellsTheSecondOfTwoEditorsAndKeepsWhatWasTyped() throws Exception {
    long id = anyOpen();
    String person = String.valueOf(signedIn.office().personId());
    String version = String.valueOf(version(id));
    mvc.perform(
        send(id, "assign", signedIn.office()).param("version", version).param("person", person));

    String page =
        mvc.perform(
                send(id, "assign", signedIn.office())
                    .param("version", version)
                    .param("person", person)
                    .param("note", "take the ladder"))
            .andExpect(status().isConflict())
            .andReturn()
            .getResponse()
            .getContentAsString();

    assertWhole(page);
    assertThat(page).contains("changed by somebody else").contains("take the ladder");
  }

  @Test
  void refusesADayThatCannotBeAndAnEmptyNote() throws Exception {
    long id = anyOpen();
    mvc.perform(
            send(id, "work", signedIn.office())
                .param("version", String.valueOf(version(id)))
                .param("day", "2031-02-30")
                .param("note", "x"))
        .andExpect(status().isUnprocessableContent());
    mvc.perform(send(id, "note", signedIn.office()).param("note", " "))
        .andExpect(status().isUnprocessableContent());
  }

  @Test
  void hidesFindingsOfOtherSites() throws Exception {
    long id = anyOpen();
    Viewer stranger = signedIn.technician("stranger@findpage.test");
    asksFor("/findings/" + id, stranger, status().isNotFound());
    assertThat(open("/findings", stranger)).doesNotContain("/findings/" + id);
    Viewer customer = signedIn.customer("reader@findpage.test", "FINDPAGE-OTHER");
    asksFor("/findings", customer, status().isForbidden());
    mvc.perform(get("/api/v1/findings").with(signedIn.api(customer)))
        .andExpect(status().isOk())
        .andExpect(result -> assertThat(result.getResponse().getContentAsString()).isEqualTo("[]"));
  }

  @Test
  void namesTheStatusesToAScriptThatAsksForNone() throws Exception {
    mvc.perform(get("/api/v1/findings?status=Open").with(signedIn.api(signedIn.office())))
        .andExpect(status().isBadRequest())
        .andExpect(
            result ->
                assertThat(result.getResponse().getContentAsString())
                    .contains("use open, assigned, worked,"));
    mvc.perform(get("/api/v1/findings?status=open").with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk());
  }

  @Test
  void servesFindingsToScripts() throws Exception {
    String answer =
        mvc.perform(get("/api/v1/findings").with(signedIn.api(signedIn.office())))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsString();
    assertThat(answer)
        .contains("\"likeliest_cause\"")
        .contains("\"check_first\"")
        .contains("\"expected_saving_amount_per_year\"");
  }
}
