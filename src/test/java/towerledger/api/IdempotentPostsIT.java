package towerledger.api;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.content;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.header;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import jakarta.servlet.http.HttpServletRequest;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.ResponseEntity;
import org.springframework.mock.web.MockPart;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.RequestBuilder;
import org.springframework.test.web.servlet.request.AbstractMockHttpServletRequestBuilder;
import org.springframework.test.web.servlet.setup.MockMvcBuilders;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;
import towerledger.account.CurrentViewer;
import towerledger.account.ViewerAuthentication;

/** A retry with the same key is the same answer, and the work is done once. */
@ApplicationOnH2
class IdempotentPostsIT {

  @Autowired GivenAnswers answers;
  @Autowired CurrentViewer currentViewer;
  @Autowired ProblemWriter problems;
  @Autowired SignedIn signedIn;

  private final Counting counting = new Counting();
  private final String key = UUID.randomUUID().toString();
  private MockMvc mvc;

  @BeforeEach
  void signIn() {
    mvc =
        MockMvcBuilders.standaloneSetup(counting)
            .addFilters(new IdempotentPosts(answers, currentViewer, problems))
            .build();
    SecurityContextHolder.getContext()
        .setAuthentication(new ViewerAuthentication(signedIn.office()));
  }

  @AfterEach
  void signOut() {
    SecurityContextHolder.clearContext();
  }

  @Test
  void givesTheFirstAnswerAgainAndWorksOnce() throws Exception {
    mvc.perform(keyed(post("/count").content("a"))).andExpect(content().string("1: a"));
    mvc.perform(keyed(post("/count").content("a")))
        .andExpect(status().isCreated())
        .andExpect(header().string("Idempotency-Replayed", "true"))
        .andExpect(content().string("1: a"));

    assertThat(counting.calls).hasValue(1);
  }

  @Test
  void refusesAKeyUsedForAnotherRequest() throws Exception {
    mvc.perform(keyed(post("/count").content("a"))).andExpect(status().isCreated());
    mvc.perform(keyed(post("/count").content("b"))).andExpect(status().is(422));
    mvc.perform(keyed(post("/count?x=1").content("a"))).andExpect(status().is(422));
  }

  @Test
  void worksAgainAfterAFault() throws Exception {
    counting.fails = true;
    mvc.perform(keyed(post("/count").content("a"))).andExpect(status().is(503));
    counting.fails = false;
    mvc.perform(keyed(post("/count").content("a"))).andExpect(content().string("2: a"));
  }

  @Test
  void answersAConflictWhileTheFirstIsBeingWorkedOn() throws Exception {
    var nested = new AtomicInteger();
    counting.meanwhile =
        () ->
            nested.set(
                mvc.perform(keyed(post("/count").content("a")))
                    .andReturn()
                    .getResponse()
                    .getStatus());
    mvc.perform(keyed(post("/count").content("a"))).andExpect(status().isCreated());

    assertThat(nested).hasValue(409);
    assertThat(counting.calls).hasValue(1);
  }

  @Test
  void knowsAnUploadAgainByItsContent() throws Exception {
    mvc.perform(upload("meter,read_at")).andExpect(content().string("1: 13"));
    mvc.perform(upload("meter,read_at")).andExpect(content().string("1: 13"));
    mvc.perform(upload("meter,read_xx")).andExpect(status().is(422));

    assertThat(counting.calls).hasValue(1);
  }

  @Test
  void refusesAKeyThatIsNone() throws Exception {
    mvc.perform(post("/count").content("a").header("Idempotency-Key", "x".repeat(201)))
        .andExpect(status().isBadRequest());
  }

  private RequestBuilder upload(String csv) {
    return keyed(post("/upload").contentType("multipart/form-data; boundary=" + UUID.randomUUID()))
        .with(
            request -> {
              request.addPart(new MockPart("file", "a.csv", csv.getBytes(UTF_8)));
              return request;
            });
  }

  private <B extends AbstractMockHttpServletRequestBuilder<B>> B keyed(B request) {
    return request.header("Idempotency-Key", key);
  }

  private interface Work {
    void run() throws Exception;
  }

  @RestController
  static class Counting {

    final AtomicInteger calls = new AtomicInteger();
    volatile boolean fails;
    volatile Work meanwhile = () -> {};

    @PostMapping("/count")
    ResponseEntity<String> count(@RequestBody String body) throws Exception {
      int call = calls.incrementAndGet();
      meanwhile.run();
      return fails
          ? ResponseEntity.status(503).body("busy")
          : ResponseEntity.status(201).body(call + ": " + body);
    }

    @PostMapping("/upload")
    String upload(HttpServletRequest request) throws Exception {
      return calls.incrementAndGet() + ": " + request.getPart("file").getSize();
    }
  }
}
