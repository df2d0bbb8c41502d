package towerledger.account;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.content;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.header;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import jakarta.servlet.http.Cookie;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.MailServer;
import towerledger.SignedIn;

/** Invitations and resets: by letter, once, for a time; sessions listed and ended. */
abstract class PasswordLinkCases {

  private static final String PASSWORD = "gneiss and lichen at noon";
  private static final Pattern LINK =
      Pattern.compile("http://\\S+?(/(?:invitation|password/reset)/[A-Za-z0-9_-]{43})");

  @Autowired MockMvc mvc;
  @Autowired JdbcClient jdbc;
  @Autowired SignedIn signedIn;
  @Autowired People people;
  @Autowired Passwords passwords;
  @Autowired TransactionTemplate transactions;

  /** An address of this database's own: all applications under test share the mail server. */
  private String at(String name) {
    return name + "@" + getClass().getSimpleName().toLowerCase(Locale.ROOT) + ".test";
  }

  @Test
  void invitesByLetterAndLetsTheInvitedChooseOnce() throws Exception {
    String email = at("invited");
    assertThat(invite(email)).as("nothing to hand over: it goes by mail").isNull();
    String link = link(MailServer.awaitLetter(email, 1));
    assertThat(link).startsWith("/invitation/");
    assertThat(count("SELECT COUNT(*) FROM account_link WHERE secret_hash = ?", secret(link)))
        .as("the secret is not stored")
        .isZero();

    mvc.perform(get(link))
        .andExpect(status().isOk())
        .andExpect(header().string("Referrer-Policy", "no-referrer"))
        .andExpect(content().string(containsString(email)));
    mvc.perform(choosing(link, "too short", "too short"))
        .andExpect(status().isUnprocessableContent())
        .andExpect(content().string(not(containsString("too short<"))));
    mvc.perform(choosing(link, PASSWORD, PASSWORD)).andExpect(redirectedUrl("/sign-in?chosen"));

    mvc.perform(signingIn(email, PASSWORD)).andExpect(redirectedUrl("/rounds"));
    String used = body(get(link));
    assertThat(used).isEqualTo(body(get("/invitation/" + Secrets.random())));
    mvc.perform(get(link)).andExpect(status().isNotFound());
    mvc.perform(choosing(link, "another fine phrase here", "another fine phrase here"))
        .andExpect(status().isNotFound());
    mvc.perform(signingIn(email, PASSWORD)).andExpect(redirectedUrl("/rounds"));
  }

  /** The second waits for the first at the unique address, and is told as if it came later. */
  @Test
  void twoInvitationsOfOneAddressAtOnceMakeOnePerson() throws Exception {
    String email = at("twice");
    var second = new AtomicReference<Throwable>();
    Thread waiting =
        new Thread(() -> second.set(catchThrowable(() -> invite(email))), "second invitation");
    transactions.executeWithoutResult(
        open -> {
          invite(email);
          waiting.start();
          letItWait(waiting);
        });
    waiting.join();

    assertThat(second.get())
        .isInstanceOf(AccountException.class)
        .hasMessageContaining("there is a login for " + email + " already");
    assertThat(count("SELECT COUNT(*) FROM account_person WHERE email = ?", email)).isOne();
  }

  @Test
  void refusesALinkPastItsEnd() throws Exception {
    String email = at("late");
    invite(email);
    String link = link(MailServer.awaitLetter(email, 1));
    jdbc.sql(
            """
            UPDATE account_link SET created_at = TIMESTAMP WITH TIME ZONE '2020-01-01 00:00:00+00:00',
              expires_at = TIMESTAMP WITH TIME ZONE '2020-01-08 00:00:00+00:00'
            WHERE secret_hash = ?""")
        .param(Secrets.hash(secret(link)))
        .update();

    mvc.perform(get(link)).andExpect(status().isNotFound());
    mvc.perform(choosing(link, PASSWORD, PASSWORD)).andExpect(status().isNotFound());
    mvc.perform(signingIn(email, PASSWORD)).andExpect(redirectedUrl("/sign-in?wrong"));
  }

  @Test
  void sendsANewLinkInPlaceOfTheOldAndTellsAStrangerNothing() throws Exception {
    String email = at("forgetful");
    person(email);
    String known =
        mvc.perform(post("/password/forgotten").with(csrf()).param("email", email))
            .andExpect(redirectedUrl("/password/forgotten?sent"))
            .andReturn()
            .getResponse()
            .getContentAsString();
    String stranger =
        mvc.perform(post("/password/forgotten").with(csrf()).param("email", at("no")))
            .andExpect(redirectedUrl("/password/forgotten?sent"))
            .andReturn()
            .getResponse()
            .getContentAsString();
    assertThat(known).isEqualTo(stranger);
    String first = link(MailServer.awaitLetter(email, 1));
    // The same person, written in another case.
    mvc.perform(
            post("/password/forgotten")
                .with(csrf())
                .param("email", at("Forgetful").replace("test", "TEST")))
        .andExpect(status().is3xxRedirection());
    String second = link(MailServer.awaitLetter(email, 2));

    mvc.perform(get(first)).andExpect(status().isNotFound());
    mvc.perform(choosing(second, "slate roof and heather", "slate roof and heather"))
        .andExpect(redirectedUrl("/sign-in?chosen"));
    mvc.perform(signingIn(email, PASSWORD)).andExpect(redirectedUrl("/sign-in?wrong"));
    mvc.perform(signingIn(email, "slate roof and heather")).andExpect(status().is3xxRedirection());
    assertThat(MailServer.awaitLetter(email, 3))
        .contains("a new password was taken")
        .doesNotContain("slate", "/password/reset/");
    assertThat(MailServer.lettersTo(at("no"))).isEmpty();
  }

  @Test
  void endsSessionsThereAndEverywhere() throws Exception {
    String email = at("roaming");
    person(email);
    Cookie desk = session(email);
    Cookie phone = session(email);
    Cookie tablet = session(email);
    String page = body(get("/me").cookie(desk));
    assertThat(page).contains("3 places").contains("this one, now");
    String key = page.replaceAll("(?s).*?/me/sessions/([0-9a-f]{16})/end.*", "$1");

    mvc.perform(post("/me/sessions/" + key + "/end").cookie(desk).with(csrf()))
        .andExpect(redirectedUrl("/me"));
    assertThat(body(get("/me").cookie(desk))).contains("2 places");

    mvc.perform(post("/me/sessions/end-all").cookie(desk).with(csrf()))
        .andExpect(redirectedUrl("/sign-in?signed-out"));
    for (Cookie cookie : new Cookie[] {desk, phone, tablet}) {
      mvc.perform(get("/me").cookie(cookie)).andExpect(redirectedUrl("/sign-in?to=%2Fme"));
    }
  }

  @Test
  void signsOutAndUnarmsWhoeverIsRemoved() throws Exception {
    String email = at("leaver");
    long id = person(email);
    Cookie session = session(email);
    String token = signedIn.token(people.get(id).viewer());
    mvc.perform(get("/me").cookie(session)).andExpect(status().isOk());

    people.remove(id, Actor.system("test"));

    mvc.perform(get("/me").cookie(session)).andExpect(redirectedUrl("/sign-in?to=%2Fme"));
    mvc.perform(get("/api/v1/absent").header("Authorization", "Bearer " + token))
        .andExpect(status().isUnauthorized());
    mvc.perform(signingIn(email, PASSWORD)).andExpect(redirectedUrl("/sign-in?wrong"));
  }

  @Test
  void takesAnotherCaseOfTheEmailAndNoLookAlike() throws Exception {
    String email = at("kim");
    person(email);
    mvc.perform(signingIn(email.toUpperCase(Locale.ROOT), PASSWORD))
        .andExpect(redirectedUrl("/rounds"));
    // Kelvin sign, Cyrillic i, full-width m: each looks like the letter and is another.
    for (String alike : new String[] {at("\u212Aim"), at("k\u0456m"), at("ki\uFF4D")}) {
      mvc.perform(signingIn(alike, PASSWORD)).andExpect(redirectedUrl("/sign-in?wrong"));
    }
  }

  @Test
  void refusesAMillionCharactersWithoutHashingThem() throws Exception {
    String email = at("verbose");
    person(email);
    String million = "x".repeat(1_000_000);
    mvc.perform(signingIn(email, million)).andExpect(redirectedUrl("/sign-in?wrong"));
    Cookie session = session(email);
    mvc.perform(
            post("/password")
                .cookie(session)
                .with(csrf())
                .param("current", PASSWORD)
                .param("password", million)
                .param("again", million))
        .andExpect(status().isUnprocessableContent())
        .andExpect(content().string(containsString("longer than 256 characters")));
  }

  /** Long enough to come to the row that the other has not committed yet. */
  private static void letItWait(Thread waiting) {
    try {
      waiting.join(1000);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private String invite(String email) {
    return people
        .invite(
            new Invitation(EmailAddress.of(email), "Ann Other", Role.TECHNICIAN, null, false),
            Actor.system("test"))
        .link();
  }

  private long person(String email) {
    long id = signedIn.technician(email).personId();
    jdbc.sql("UPDATE account_person SET password_hash = ? WHERE id = ?")
        .params(passwords.hash(PASSWORD), id)
        .update();
    return id;
  }

  private Cookie session(String email) throws Exception {
    return mvc.perform(signingIn(email, PASSWORD))
        .andExpect(redirectedUrl("/rounds"))
        .andReturn()
        .getResponse()
        .getCookie("TOWERLEDGER_SESSION");
  }

  private String body(MockHttpServletRequestBuilder request) throws Exception {
    return mvc.perform(request)
        .andReturn()
        .getResponse()
        .getContentAsString()
        .replaceAll("name=\"_csrf\" value=\"[^\"]*\"", "csrf")
        .replaceAll("name=\"back\" value=\"[^\"]*\"", "back");
  }

  private static MockHttpServletRequestBuilder signingIn(String email, String password) {
    return post("/sign-in").with(csrf()).param("email", email).param("password", password);
  }

  private static MockHttpServletRequestBuilder choosing(
      String link, String password, String again) {
    return post(link).with(csrf()).param("password", password).param("again", again);
  }

  private static String link(String letter) {
    var found = LINK.matcher(letter);
    assertThat(found.find()).as(letter).isTrue();
    return found.group(1);
  }

  private static String secret(String link) {
    return link.substring(link.lastIndexOf('/') + 1);
  }

  private long count(String sql, String parameter) {
    return jdbc.sql(sql).param(parameter).query(Long.class).single();
  }
}
