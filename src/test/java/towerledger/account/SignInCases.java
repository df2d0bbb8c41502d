package towerledger.account;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.startsWith;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.httpBasic;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.content;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.header;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.jsonPath;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import jakarta.servlet.http.Cookie;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.MediaType;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import tools.jackson.databind.json.JsonMapper;
import towerledger.SignedIn;

/** Tokens for programs, sessions for people, and nothing for anybody else. */
abstract class SignInCases {

  @Autowired MockMvc mvc;
  @Autowired JdbcClient jdbc;
  @Autowired SignedIn signedIn;
  @Autowired JsonMapper json;
  @Autowired Tokens tokens;
  @Autowired Passwords passwords;

  @Test
  void givesATokenForEmailAndPasswordAndKeepsItsHashOnly() throws Exception {
    String answer =
        mvc.perform(
                post("/api/v1/tokens")
                    .with(httpBasic(" OFFICE@Ledger.test ", signedIn.adminPassword()))
                    .contentType(MediaType.APPLICATION_JSON)
                    .content("{\"name\": \"reader\"}"))
            .andExpect(status().isOk())
            .andExpect(header().string("Cache-Control", "no-store"))
            .andReturn()
            .getResponse()
            .getContentAsString();
    String secret = json.readTree(answer).get("token").asString();

    mvc.perform(get("/api/v1/absent").header("Authorization", "Bearer " + secret))
        .andExpect(status().isNotFound())
        .andExpect(content().contentType(MediaType.APPLICATION_PROBLEM_JSON))
        .andExpect(jsonPath("$.status").value(404));
    assertThat(
            jdbc.sql("SELECT COUNT(*) FROM account_token WHERE token_hash = ?")
                .param(Secrets.hash(secret))
                .query(Long.class)
                .single())
        .isEqualTo(1);
  }

  @Test
  void refusesAWrongPasswordAndBasicElsewhereWithAProblemDetail() throws Exception {
    mvc.perform(
            post("/api/v1/tokens")
                .with(httpBasic(signedIn.adminEmail(), "wrong"))
                .contentType(MediaType.APPLICATION_JSON)
                .content("{\"name\": \"x\"}"))
        .andExpect(status().isUnauthorized())
        .andExpect(header().string("WWW-Authenticate", startsWith("Basic")))
        .andExpect(content().contentType(MediaType.APPLICATION_PROBLEM_JSON))
        .andExpect(jsonPath("$.detail").value("E-mail or password is wrong."));
    mvc.perform(
            get("/api/v1/ledger").with(httpBasic(signedIn.adminEmail(), signedIn.adminPassword())))
        .andExpect(status().isUnauthorized())
        .andExpect(header().string("WWW-Authenticate", startsWith("Bearer")));
    mvc.perform(get("/api/v1/ledger").header("Authorization", "Bearer twl_unknown"))
        .andExpect(status().isUnauthorized());
  }

  @Test
  void opensTheHealthCheckToEverybodyAndNothingElse() throws Exception {
    mvc.perform(get("/actuator/health")).andExpect(status().isOk());
    mvc.perform(get("/actuator/env")).andExpect(status().isUnauthorized());
    mvc.perform(get("/v3/api-docs")).andExpect(status().isUnauthorized());
    mvc.perform(get("/some/page?x=1"))
        .andExpect(redirectedUrl("/sign-in?to=%2Fsome%2Fpage%3Fx%3D1"));
    mvc.perform(get("/portal")).andExpect(status().is3xxRedirection());
  }

  @Test
  void showsTheDescriptionOfTheApiToWhoIsSignedIn() throws Exception {
    mvc.perform(get("/v3/api-docs").with(SignedIn.page(signedIn.office())))
        .andExpect(status().isOk());
    mvc.perform(get("/v3/api-docs").with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.info.title").value("Tower Water Ledger"))
        .andExpect(jsonPath("$.paths['/api/v1/tokens'].post").exists());
  }

  @Test
  void signsInByFormAndRemembersInTheDatabase() throws Exception {
    mvc.perform(get("/sign-in")).andExpect(status().isOk());
    var answer =
        mvc.perform(
                post("/sign-in")
                    .with(csrf())
                    .param("email", signedIn.adminEmail())
                    .param("password", signedIn.adminPassword()))
            .andExpect(redirectedUrl("/"))
            .andReturn()
            .getResponse();

    assertThat(answer.getCookie("TOWERLEDGER_SESSION")).isNotNull();
    assertThat(
            jdbc.sql("SELECT COUNT(*) FROM spring_session WHERE principal_name = ?")
                .param(signedIn.adminEmail())
                .query(Long.class)
                .single())
        .isPositive();
    String id =
        new String(
            Base64.getDecoder().decode(answer.getCookie("TOWERLEDGER_SESSION").getValue()),
            StandardCharsets.UTF_8);
    assertThat(
            jdbc.sql("SELECT session_id FROM spring_session WHERE principal_name = ?")
                .param(signedIn.adminEmail())
                .query(String.class)
                .list())
        .as("what the database keeps does not open a session")
        .contains(Secrets.hash(id))
        .doesNotContain(id);
    mvc.perform(get("/nowhere").cookie(answer.getCookie("TOWERLEDGER_SESSION")))
        .andExpect(status().isNotFound());
  }

  @Test
  void leadsAOneTimePasswordToAnOwnOneAndNowhereElse() throws Exception {
    Viewer technician = signedIn.technician("first@signin.test");
    jdbc.sql(
            "UPDATE account_person SET password_hash = ?, must_change_password = TRUE WHERE id = ?")
        .params(passwords.hash("once only 4711"), technician.personId())
        .update();

    var cookie =
        mvc.perform(
                post("/sign-in")
                    .with(csrf())
                    .param("email", technician.email())
                    .param("password", "once only 4711"))
            .andExpect(redirectedUrl("/password"))
            .andReturn()
            .getResponse()
            .getCookie("TOWERLEDGER_SESSION");
    mvc.perform(get("/nowhere").cookie(cookie)).andExpect(redirectedUrl("/password"));
    mvc.perform(get("/password").cookie(cookie))
        .andExpect(status().isOk())
        .andExpect(content().string(containsString("One-time password")));

    mvc.perform(choosing(cookie, "wrong", "gneiss and lichen at noon", null))
        .andExpect(status().isUnprocessableContent())
        .andExpect(content().string(containsString("not the password you signed in with")));
    mvc.perform(choosing(cookie, "once only 4711", "too short", null))
        .andExpect(status().isUnprocessableContent())
        .andExpect(content().string(containsString("shorter than 15 characters")))
        .andExpect(content().string(not(containsString("too short<"))));
    mvc.perform(choosing(cookie, "once only 4711", "gneiss and lichen at noon", "and another"))
        .andExpect(content().string(containsString("The two entries differ")));

    var next =
        mvc.perform(choosing(cookie, "once only 4711", "gneiss and lichen at noon", null))
            .andExpect(redirectedUrl("/rounds"))
            .andReturn()
            .getResponse()
            .getCookie("TOWERLEDGER_SESSION");
    assertThat(next).as("the session has a new name").isNotNull().isNotEqualTo(cookie);
    mvc.perform(get("/nowhere").cookie(next)).andExpect(status().isNotFound());
    mvc.perform(get("/nowhere").cookie(cookie)).andExpect(redirectedUrl("/sign-in?to=%2Fnowhere"));
    assertThat(
            jdbc.sql(
                    "SELECT COUNT(*) FROM account_change WHERE action = 'chose-password' AND thing_code = ?")
                .param(technician.email())
                .query(Long.class)
                .single())
        .isEqualTo(1);
  }

  private static MockHttpServletRequestBuilder choosing(
      Cookie cookie, String current, String password, String again) {
    return post("/password")
        .cookie(cookie)
        .with(csrf())
        .param("current", current)
        .param("password", password)
        .param("again", again == null ? password : again);
  }

  @Test
  void refusesAFormWithoutItsToken() throws Exception {
    mvc.perform(
            post("/sign-in")
                .param("email", signedIn.adminEmail())
                .param("password", signedIn.adminPassword()))
        .andExpect(status().isForbidden());
  }

  @Test
  void refusesATokenOnceItIsRevokedOrItsOwnerRemoved() throws Exception {
    Viewer viewer = signedIn.customer("leaving@signin.test", "SIGNIN-1");
    String secret = signedIn.token(viewer);
    mvc.perform(get("/api/v1/absent").header("Authorization", "Bearer " + secret))
        .andExpect(status().isNotFound());

    jdbc.sql("UPDATE account_person SET enabled = FALSE WHERE id = ?")
        .param(viewer.personId())
        .update();

    mvc.perform(get("/api/v1/absent").header("Authorization", "Bearer " + secret))
        .andExpect(status().isUnauthorized());
  }
}
