package towerledger.api;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Optional;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.filter.OncePerRequestFilter;
import towerledger.account.RequestLimits;
import towerledger.account.Tokens;
import towerledger.account.Viewer;
import towerledger.account.ViewerAuthentication;

/** Recognises the bearer of a token (RFC 6750); a token that opens nothing is refused here. */
class BearerTokens extends OncePerRequestFilter {

  private static final String SCHEME = "Bearer ";

  private final Tokens tokens;
  private final RequestLimits limits;
  private final ProblemWriter problems;

  BearerTokens(Tokens tokens, RequestLimits limits, ProblemWriter problems) {
    this.limits = limits;
    this.tokens = tokens;
    this.problems = problems;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    String header = request.getHeader(HttpHeaders.AUTHORIZATION);
    if (header == null || !header.regionMatches(true, 0, SCHEME, 0, SCHEME.length())) {
      chain.doFilter(request, response);
      return;
    }
    String secret = header.substring(SCHEME.length()).strip();
    Optional<Viewer> viewer = tokens.viewer(secret);
    if (viewer.isEmpty()) {
      response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer error=\"invalid_token\"");
      problems.write(
          request,
          response,
          HttpStatus.UNAUTHORIZED,
          "This token is unknown, revoked or past its end, or its owner may no longer sign in."
              + " Make a new one with POST /api/v1/tokens.");
      return;
    }
    long wait = limits.waitForToken(secret);
    if (wait > 0) {
      response.setHeader(HttpHeaders.RETRY_AFTER, Long.toString(wait));
      problems.write(
          request,
          response,
          HttpStatus.TOO_MANY_REQUESTS,
          "Too many requests with this token. Try again in %d seconds.".formatted(wait));
      return;
    }
    SecurityContext context = SecurityContextHolder.createEmptyContext();
    context.setAuthentication(new ViewerAuthentication(viewer.get()));
    SecurityContextHolder.setContext(context);
    chain.doFilter(request, response);
  }
}
