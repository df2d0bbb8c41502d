package towerledger.api;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.content;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.header;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.ServletRequest;
import jakarta.servlet.ServletResponse;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import jakarta.servlet.http.Part;
import java.io.IOException;
import java.util.Collection;
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
import towerledger.account.TokenScope;
import towerledger.account.Viewer;
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
            .addFilters(
                IdempotentPostsIT::breaking, new IdempotentPosts(answers, currentViewer, problems))
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

  /** A form without its boundary leaves the stream closed, and the container says so by a fault. */
  @Test
  void saysThatABrokenBodyIsBrokenAndFreesItsKey() throws Exception {
    mvc.perform(keyed(post("/count").content("a").header("X-Broken", "1")))
        .andExpect(status().isBadRequest());
    mvc.perform(keyed(post("/count").content("a"))).andExpect(content().string("1: a"));
    mvc.perform(keyed(post("/count").content("a").header("X-Broken", "1")))
        .andExpect(status().isBadRequest())
        .andExpect(header().doesNotExist("Idempotency-Replayed"));
    mvc.perform(
            keyed(post("/count").content("a").header("X-Broken", "1"))
                .contentType("multipart/form-data"))
        .andExpect(status().isBadRequest());
  }

  @Test
  void doesNotGiveAnAnswerToATokenThatMayOnlyLook() throws Exception {
    mvc.perform(keyed(post("/count").content("a"))).andExpect(status().isCreated());

    Viewer office = signedIn.office();
    SecurityContextHolder.getContext()
        .setAuthentication(
            new ViewerAuthentication(
                new Viewer(
                    office.personId(),
                    office.email(),
                    office.name(),
                    office.role(),
                    office.customerId(),
                    TokenScope.READ,
                    office.mayEnter(),
                    office.units(),
                    office.language())));

    mvc.perform(keyed(post("/count").content("a")))
        .andExpect(header().doesNotExist("Idempotency-Replayed"));
    assertThat(counting.calls).hasValue(2);
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

  private static void breaking(ServletRequest request, ServletResponse response, FilterChain chain)
      throws IOException, ServletException {
    var http = (HttpServletRequest) request;
    chain.doFilter(
        http.getHeader("X-Broken") == null
            ? http
            : new HttpServletRequestWrapper(http) {
              @Override
              public ServletInputStream getInputStream() throws IOException {
                throw new IOException("Stream closed");
              }

              @Override
              public Collection<Part> getParts() throws IOException {
                throw new IOException("no multipart boundary was found");
              }
            },
        response);
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
