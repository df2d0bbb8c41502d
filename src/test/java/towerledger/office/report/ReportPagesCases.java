package towerledger.office.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.header;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.StandardCharsets;
import java.time.YearMonth;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;

/** The way of a report through the office's pages, from the plan to the delivery log. */
abstract class ReportPagesCases extends PageCases {

  private static final YearMonth MONTH = YearMonth.of(2026, 10);

  @Autowired ApplicationContext context;

  @BeforeEach
  void writeTheMonthOnce() {
    if (count("SELECT COUNT(*) FROM account_customer WHERE code = 'RP-ONE'") == 0) {
      new InventedMonths(context, "RP-ONE", "Hôpital RP", "Zoë", "zoe@rp.example")
          .history(MONTH)
          .write(MONTH, Kind.BAD, InventedMonths.instant(MONTH.plusMonths(1), 11), "first");
    }
  }

  @Test
  void keepsAPlanAndSaysWhatIsWrongWithOne() throws Exception {
    mvc.perform(
            plan()
                .param("day", "14")
                .param("hour", "6")
                .param("zone", "America/New_York")
                .param("units", "SI")
                .param("active", "true")
                .param("held", "true")
                .param("recipients", "zoe@rp.example\nkurt@rp.example"))
        .andExpect(redirectedUrl("/reports/of/RP-ONE"));
    assertThat(open("/reports/of/RP-ONE"))
        .contains("Hôpital RP gets the report at 2 addresses: day 14 at 06:00 America/New York")
        .contains("kurt@rp.example");
    assertThat(open("/reports?search=rp-one")).contains("held for approval");

    String refused =
        mvc.perform(
                plan().param("day", "31").param("zone", "UTC").param("recipients", "nobody@home@x"))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertThat(refused).contains("choose 1 to 28").contains("nobody@home@x");

    mvc.perform(
            plan().param("day", "12").param("zone", "UTC").param("recipients", "zoe@rp.example"))
        .andExpect(redirectedUrl("/reports/of/RP-ONE"));
  }

  @Test
  void leadsFromADraftToTheOutbox() throws Exception {
    String address =
        mvc.perform(as(post("/reports/of/RP-ONE/prepare")).param("month", "2026-10"))
            .andExpect(status().is3xxRedirection())
            .andReturn()
            .getResponse()
            .getRedirectedUrl();

    String draft = open(address);
    assertThat(lead(draft)).contains("45,200 gal wasted, about $582");
    // The title is the reader's, the subject the customer's (WCAG 2.2, 3.1.2).
    assertThat(group("<title>([^<]*)</title>", draft)).startsWith("Report to ");
    assertThat(draft).contains("<p class=\"lead\" lang=\"en\">");
    assertThat(draft).contains("Send now").contains("It goes to ").contains("sandbox");
    assertThat(open("/reports")).contains(address);
    String mail =
        mvc.perform(as(get(address + "/mail")))
            .andExpect(status().isOk())
            .andExpect(
                header()
                    .string(
                        "Content-Security-Policy",
                        org.hamcrest.Matchers.containsString("frame-ancestors 'self'")))
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertThat(mail)
        .as("the picture is inside, as nothing is loaded into the preview")
        .contains("src=\"data:image/png;base64,iVBORw0KGgo")
        .doesNotContain("{{");
    for (String form : new String[] {"plain.txt", "report.pdf", "figures.csv"}) {
      mvc.perform(as(get(address + "/" + form))).andExpect(status().isOk());
    }

    String seen = group("name=\"digest\" value=\"([0-9a-f]{64})\"", draft);
    mvc.perform(
            as(post(address + "/note")).param("note", "We come on Monday.").param("noteBy", "Ines"))
        .andExpect(redirectedUrl(address));
    mvc.perform(as(post(address + "/approve")).param("digest", seen))
        .andExpect(redirectedUrl(address));
    assertThat(open(address)).as("what was seen is not what is there").contains("Send now");

    String now = group("name=\"digest\" value=\"([0-9a-f]{64})\"", open(address));
    mvc.perform(as(post(address + "/approve")).param("digest", now))
        .andExpect(redirectedUrl(address));
    assertThat(open(address))
        .doesNotContain("Send now")
        .contains("zoe@rp.example")
        .contains("Nothing of it changes any more");
  }

  /** A button pressed twice: one draft, and both are led to it. */
  @Test
  void writesOneDraftWhenAskedTwiceAtOnce() throws Exception {
    for (String month : List.of("2026-05", "2026-06", "2026-07")) {
      var together = new CyclicBarrier(2);
      Callable<String> press =
          () -> {
            together.await();
            return mvc.perform(as(post("/reports/of/RP-ONE/prepare")).param("month", month))
                .andExpect(status().is3xxRedirection())
                .andReturn()
                .getResponse()
                .getRedirectedUrl();
          };
      ExecutorService hands = Executors.newFixedThreadPool(2);
      try {
        Future<String> one = hands.submit(press);
        Future<String> other = hands.submit(press);
        assertThat(one.get()).startsWith("/reports/").isEqualTo(other.get());
      } finally {
        hands.shutdown();
      }
    }
  }

  @Test
  void letsRecipientsLeaveByOneClickWithoutSigningIn() throws Exception {
    mvc.perform(as(post("/reports/of/RP-ONE/prepare")).param("month", "2026-09"));
    long id =
        jdbc.sql(
                """
                SELECT MAX(i.id) FROM report_issue i JOIN account_customer c ON c.id = i.customer_id
                WHERE c.code = 'RP-ONE' AND i.month_start = DATE '2026-09-01'""")
            .query(Long.class)
            .single();
    String digest = group("name=\"digest\" value=\"([0-9a-f]{64})\"", open("/reports/" + id));
    mvc.perform(as(post("/reports/" + id + "/approve")).param("digest", digest));
    String token =
        jdbc.sql("SELECT leave_token FROM report_mail WHERE issue_id = ?")
            .param(id)
            .query(String.class)
            .single();
    String link = "/unsubscribe/" + token;

    String asks = mvc.perform(get(link)).andReturn().getResponse().getContentAsString();
    assertThat(asks).contains("zoe@rp.example").contains("Stop the reports");
    assertThat(leavers()).as("opening the link changes nothing").isZero();
    // RFC 8058, 3.2: a POST with this body, no cookie, no token of ours
    mvc.perform(post(link).param("List-Unsubscribe", "One-Click")).andExpect(status().isOk());
    assertThat(leavers()).isEqualTo(1);
    mvc.perform(get("/unsubscribe/nothing")).andExpect(status().isNotFound());

    mvc.perform(as(post("/reports/of/RP-ONE/welcome-back")).param("recipient", "zoe@rp.example"))
        .andExpect(redirectedUrl("/reports/of/RP-ONE"));
    assertThat(leavers()).isZero();
  }

  @Test
  void showsReportsToTheOfficeAlone() throws Exception {
    asksFor("/reports", signedIn.technician("tech@rp.example"), status().isForbidden());
    asksFor("/reports", signedIn.customer("reader@rp.example", "RP-ONE"), status().isForbidden());
    asksFor("/reports/of/NOBODY", signedIn.office(), status().isNotFound());
    asksFor("/reports/99999999", signedIn.office(), status().isNotFound());
    asksFor("/reports/99999999/mail", signedIn.office(), status().isNotFound());
  }

  private long leavers() {
    return count("SELECT COUNT(*) FROM report_leaver WHERE recipient = 'zoe@rp.example'");
  }

  private MockHttpServletRequestBuilder plan() {
    return as(post("/reports/of/RP-ONE"));
  }

  private MockHttpServletRequestBuilder as(MockHttpServletRequestBuilder request) {
    return request.with(SignedIn.page(signedIn.office()));
  }
}
