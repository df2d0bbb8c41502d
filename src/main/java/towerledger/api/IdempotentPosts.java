package towerledger.api;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.util.ContentCachingResponseWrapper;
import towerledger.account.CurrentViewer;
import towerledger.account.Viewer;

/**
 * Honours the {@code Idempotency-Key} header on every POST below {@code /api/v1} but {@code
 * /tokens}: the same key with the same request gets the first answer again, with another request a
 * refusal, and while the first is still being worked on a conflict.
 *
 * <p>After the IETF draft 'The Idempotency-Key HTTP Header Field'. An answer that says nothing was
 * done (a fault, a refused login, a rate limit) is not kept, so the retry is a true one.
 */
class IdempotentPosts extends OncePerRequestFilter {

  private static final String HEADER = "Idempotency-Key";
  private static final Pattern KEY = Pattern.compile("[!-~]{1,200}");
  private static final Set<Integer> NOTHING_WAS_DONE = Set.of(401, 403, 408, 409, 413, 429);
  private static final int LARGEST_KEPT = 1 << 20;

  private final GivenAnswers answers;
  private final CurrentViewer currentViewer;
  private final ProblemWriter problems;

  IdempotentPosts(GivenAnswers answers, CurrentViewer currentViewer, ProblemWriter problems) {
    this.answers = answers;
    this.currentViewer = currentViewer;
    this.problems = problems;
  }

  @Override
  protected boolean shouldNotFilter(HttpServletRequest request) {
    return !"POST".equals(request.getMethod()) || request.getHeader(HEADER) == null;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    String key = request.getHeader(HEADER);
    Optional<Viewer> viewer = currentViewer.find();
    if (viewer.isEmpty()) {
      chain.doFilter(request, response);
      return;
    }
    if (!KEY.matcher(key).matches()) {
      problems.write(
          request,
          response,
          HttpStatus.BAD_REQUEST,
          "An Idempotency-Key has 1 to 200 visible ASCII characters.");
      return;
    }
    HashedRequest hashed = new HashedRequest(request);
    String owner = owner(viewer.get());
    Optional<GivenAnswers.Answer> given = answers.claim(owner, key);
    if (given.isPresent()) {
      repeat(given.get(), hashed, response);
    } else {
      work(owner, key, hashed, response, chain);
    }
  }

  /**
   * Whose keys are met: those of the same person, seeing the same customer and allowed the same. An
   * answer is given again before anybody asks whether its reader might have made the request.
   */
  private static String owner(Viewer viewer) {
    return "%d/%s/%s/%s/%s"
        .formatted(
            viewer.personId(),
            viewer.customerId() == null ? "all" : viewer.customerId(),
            viewer.role(),
            viewer.scope(),
            viewer.mayEnter() ? "enters" : "looks");
  }

  private void work(
      String owner,
      String key,
      HashedRequest request,
      HttpServletResponse response,
      FilterChain chain)
      throws ServletException, IOException {
    ContentCachingResponseWrapper answer = new ContentCachingResponseWrapper(response);
    boolean kept = false;
    try {
      chain.doFilter(request, answer);
      kept = keep(owner, key, request, answer);
    } finally {
      if (!kept) {
        answers.release(owner, key);
      }
    }
    answer.copyBodyToResponse();
  }

  private boolean keep(
      String owner, String key, HashedRequest request, ContentCachingResponseWrapper answer)
      throws IOException {
    int status = answer.getStatus();
    if (status >= 500 || NOTHING_WAS_DONE.contains(status) || !request.isRead()) {
      return false;
    }
    byte[] body = answer.getContentAsByteArray();
    answers.keep(
        owner,
        key,
        new GivenAnswers.Answer(
            request.hash(),
            status,
            answer.getContentType(),
            body.length > LARGEST_KEPT ? null : new String(body, StandardCharsets.UTF_8),
            OffsetDateTime.MIN));
    return true;
  }

  private void repeat(
      GivenAnswers.Answer given, HashedRequest request, HttpServletResponse response)
      throws IOException, ServletException {
    Integer status = given.status();
    if (status == null) {
      response.setHeader(HttpHeaders.RETRY_AFTER, "2");
      problems.write(
          request,
          response,
          HttpStatus.CONFLICT,
          "A request with this Idempotency-Key is being worked on. Try again in a moment.");
      return;
    }
    if (!request.readAll()) {
      problems.write(
          request,
          response,
          HttpStatus.BAD_REQUEST,
          "The upload could not be read to its end. Send it again.");
      return;
    }
    if (!request.hash().equals(given.requestHash())) {
      problems.write(
          request,
          response,
          HttpStatus.UNPROCESSABLE_CONTENT,
          "This Idempotency-Key was used for another request. Take a new key for a new request.");
      return;
    }
    if (given.body() == null) {
      problems.write(
          request,
          response,
          HttpStatus.CONFLICT,
          "This was done, with status %d; the answer was too large to be kept. Ask for it by GET."
              .formatted(status));
      return;
    }
    response.setStatus(status);
    response.setHeader("Idempotency-Replayed", "true");
    if (given.contentType() != null) {
      response.setContentType(given.contentType());
    }
    response.getOutputStream().write(given.body().getBytes(StandardCharsets.UTF_8));
  }
}
