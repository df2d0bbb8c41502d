package towerledger.account;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/** Turns away an address that asks for too much, before anything is looked up for it. */
@Component
@Order(AddressLimit.BEFORE_SECURITY)
public class AddressLimit extends OncePerRequestFilter {

  /** Spring Boot puts the security chains at -100 and the session at -2147483598. */
  static final int BEFORE_SECURITY = -110;

  private final RequestLimits limits;

  /** A filter that counts against these limits. */
  public AddressLimit(RequestLimits limits) {
    this.limits = limits;
  }

  @Override
  protected boolean shouldNotFilter(HttpServletRequest request) {
    String path = request.getRequestURI();
    return path.startsWith("/assets/")
        || path.startsWith("/webjars/")
        || path.equals("/palette.css")
        || path.startsWith("/actuator/");
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    long wait = limits.waitForAddress(String.valueOf(request.getRemoteAddr()));
    if (wait > 0) {
      response.setHeader(HttpHeaders.RETRY_AFTER, Long.toString(wait));
      response.sendError(HttpStatus.TOO_MANY_REQUESTS.value());
      return;
    }
    chain.doFilter(request, response);
  }
}
