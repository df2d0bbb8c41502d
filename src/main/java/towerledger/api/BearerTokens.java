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
import towerledger.account.Tokens;
import towerledger.account.Viewer;
import towerledger.account.ViewerAuthentication;

/** Recognises the bearer of a token (RFC 6750); a token that opens nothing is refused here. */
class BearerTokens extends OncePerRequestFilter {

  private static final String SCHEME = "Bearer ";

  private final Tokens tokens;
  private final ProblemWriter problems;

  BearerTokens(Tokens tokens, ProblemWriter problems) {
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
    Optional<Viewer> viewer = tokens.viewer(header.substring(SCHEME.length()).strip());
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
    SecurityContext context = SecurityContextHolder.createEmptyContext();
    context.setAuthentication(new ViewerAuthentication(viewer.get()));
    SecurityContextHolder.setContext(context);
    chain.doFilter(request, response);
  }
}
