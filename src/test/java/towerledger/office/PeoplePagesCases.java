package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import towerledger.MailServer;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.account.Viewer;

/** People, tokens and the history, as the office handles them. */
abstract class PeoplePagesCases extends PageCases {

  @Test
  void invitesChangesRemovesAndLetsInAgain() throws Exception {
    signedIn.customerId("PEOPLE-C1");
    String path =
        redirect(
            post("/people")
                .param("email", "Pat@People.Test")
                .param("name", "Pat Invited")
                .param("role", "CUSTOMER")
                .param("customer", "PEOPLE-C1")
                .param("mayEnter", "true"));
    assertThat(MailServer.awaitLetter("pat@people.test", 1)).contains("Pat Invited");
    String page = open(path);
    assertThat(page).contains("invited, has chosen no password yet", "hands in readings");
    assertThat(open("/people?search=pat%20inv")).contains("pat@people.test");
    assertThat(open("/people?search=pat_inv")).doesNotContain("pat@people.test");

    redirect(post(path).param("name", "Pat Renamed"));
    assertThat(open(path)).contains("Pat Renamed").doesNotContain("hands in readings");
    redirect(post(path + "/remove"));
    assertThat(open(path)).contains("Let in again").doesNotContain("Remove this login");
    redirect(post(path + "/restore"));

    String history = open("/people/history?kind=person&code=pat@people");
    assertThat(history)
        .contains("4 entries, newest first", "invited", "changed", "removed", "restored")
        .contains("this machine")
        .doesNotContain("{&quot;", "127.0.0.1<");
    String csv = body(get("/people/history.csv?kind=person&code=pat@people&did=invited"));
    assertThat(csv).startsWith("changed_at,who,from,action,kind,code,before,after\r\n");
    assertThat(csv.lines()).hasSize(2);
    assertThat(csv).contains("office@ledger.test").contains("pat@people.test");
  }

  @Test
  void saysWhyAnInvitationIsRefusedAndKeepsWhatWasTyped() throws Exception {
    String page =
        body(
            post("/people")
                .param("email", signedIn.adminEmail())
                .param("name", "<b>Twice</b>")
                .param("role", "OFFICE"));
    assertThat(group("<input id=\"email\"([^>]*)>", page))
        .contains("aria-invalid=\"true\"", "aria-describedby=\"email-error\"");
    assertThat(group("id=\"email-error\">([^<]*)<", page))
        .isEqualTo("there is a login for office@ledger.test already");
    assertThat(page).contains("&lt;b&gt;Twice&lt;/b&gt;").doesNotContain("<b>Twice");
    assertThat(
            group(
                "id=\"customer-error\">([^<]*)<",
                body(
                    post("/people")
                        .param("email", "x@people.test")
                        .param("name", "X")
                        .param("role", "CUSTOMER")
                        .param("customer", ""))))
        .isEqualTo("a customer’s login needs the customer it belongs to");
  }

  @Test
  void assignsSitesToATechnicianAndTakesThemOff() throws Exception {
    long customer = signedIn.customerId("PEOPLE-C2");
    jdbc.sql(
            """
            INSERT INTO site_site (code, customer_id, name, time_zone, created_at)
            VALUES ('PEOPLE-S1', ?, 'Quarry house', 'America/Chicago', CURRENT_TIMESTAMP)""")
        .param(customer)
        .update();
    Viewer technician = signedIn.technician("tech@people.test");
    String path = "/people/" + technician.personId();
    assertThat(open(path)).contains("None yet");

    redirect(post(path + "/assign").param("site", "PEOPLE-S1"));
    assertThat(open(path)).contains("Quarry house", "one site, no prices");
    assertThat(body(post(path + "/assign").param("site", "PEOPLE-NONE")))
        .containsPattern("id=\"site-error\">[^<]*is not known")
        .contains("value=\"PEOPLE-NONE\"");
    redirect(post(path + "/release").param("site", "PEOPLE-S1"));
    assertThat(open(path)).contains("None yet");
    asksFor("/people/999999999", signedIn.office(), status().isNotFound());
  }

  @Test
  void showsATokenOnceBindsItToACustomerAndRevokesIt() throws Exception {
    signedIn.customerId("PEOPLE-C3");
    String page =
        body(
            post("/people/tokens")
                .param("name", "people gateway")
                .param("scope", "WRITE_READINGS")
                .param("customer", "PEOPLE-C3")
                .param("days", "30"));
    String secret = group("(twl_[A-Za-z0-9_-]{43})", page);
    assertThat(page).contains("people gateway", "Customer PEOPLE-C3", "look and hand in readings");
    assertThat(open("/people/tokens")).doesNotContain("twl_");
    mvc.perform(get("/api/v1/absent").header("Authorization", "Bearer " + secret))
        .andExpect(status().isNotFound());
    mvc.perform(get("/api/v1/export.zip").header("Authorization", "Bearer " + secret))
        .andExpect(status().isForbidden());

    String id =
        group(
            "/people/tokens/(\\d+)/revoke\"(?:(?!<form).)*?Revoke people gateway",
            page.replace("\n", " "));
    redirect(post("/people/tokens/" + id + "/revoke"));
    mvc.perform(get("/api/v1/absent").header("Authorization", "Bearer " + secret))
        .andExpect(status().isUnauthorized());
    String refused =
        body(
            post("/people/tokens")
                .param("name", "typed already")
                .param("scope", "ALL")
                .param("days", "4000"));
    assertThat(group("id=\"days-error\">([^<]*)<", refused))
        .startsWith("a token may live from 1 to 3650 days");
    assertThat(refused).contains("value=\"typed already\"", "value=\"4000\"");
    assertThat(group("<input([^>]*value=\"ALL\"[^>]*)>", refused)).contains("checked");
  }

  @Test
  void keepsTheLastOfficePersonAndClosesThePagesToOthers() throws Exception {
    Viewer technician = signedIn.technician("curious@people.test");
    for (String path : new String[] {"/people", "/people/tokens", "/people/history"}) {
      asksFor(path, technician, status().isForbidden());
      asksFor(
          path, signedIn.customer("curious-c@people.test", "PEOPLE-C4"), status().isForbidden());
    }
    long office = signedIn.office().personId();
    assertThat(body(post("/people/" + office + "/remove")))
        .contains("is the last office person who can sign in");
  }

  private String redirect(MockHttpServletRequestBuilder request) throws Exception {
    return mvc.perform(request.with(SignedIn.page(signedIn.office())))
        .andExpect(status().is3xxRedirection())
        .andReturn()
        .getResponse()
        .getRedirectedUrl();
  }

  private String body(MockHttpServletRequestBuilder request) throws Exception {
    return mvc.perform(request.with(SignedIn.page(signedIn.office())))
        .andExpect(status().isOk())
        .andReturn()
        .getResponse()
        .getContentAsString(StandardCharsets.UTF_8);
  }
}
