package towerledger.page;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.http.HttpMethod;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;
import org.springframework.stereotype.Component;
import org.springframework.web.util.UriComponentsBuilder;
import towerledger.account.Role;
import towerledger.account.SignedInSession;
import towerledger.account.ViewerAuthentication;

/**
 * What every page for people has in common: the session in the database, forged requests refused,
 * and headers that let a browser run nothing but this program's own files.
 */
@Component
public class BrowserSecurity {

  /** No inline script or style, nothing from another host, no foreign frame, no plug-in. */
  static final String CONTENT_SECURITY_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; font-src 'self';"
          + " connect-src 'self'; worker-src 'self'; frame-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none';"
          + " frame-ancestors 'none'";

  private static final String PERMISSIONS =
      "camera=(self), geolocation=(), microphone=(), payment=(), usb=()";

  private final SignedInSession session;

  BrowserSecurity(SignedInSession session) {
    this.session = session;
  }

  /** Adds all that to a chain; who is let in where stays with the edge that owns the chain. */
  public HttpSecurity common(HttpSecurity http) throws Exception {
    return http.securityContext(context -> context.securityContextRepository(session))
        .requestCache(AbstractHttpConfigurer::disable)
        .httpBasic(AbstractHttpConfigurer::disable)
        .logout(AbstractHttpConfigurer::disable)
        .headers(
            headers ->
                headers
                    .contentSecurityPolicy(p -> p.policyDirectives(CONTENT_SECURITY_POLICY))
                    .referrerPolicy(p -> p.policy(ReferrerPolicy.SAME_ORIGIN))
                    .permissionsPolicyHeader(p -> p.policy(PERMISSIONS)))
        .exceptionHandling(
            refusals ->
                refusals
                    .authenticationEntryPoint(BrowserSecurity::toSignIn)
                    .accessDeniedHandler(BrowserSecurity::refuse));
  }

  private static void toSignIn(
      HttpServletRequest request, HttpServletResponse response, AuthenticationException reason)
      throws IOException {
    var address = UriComponentsBuilder.fromPath(request.getContextPath() + "/sign-in");
    if (HttpMethod.GET.matches(request.getMethod())) {
      String query = request.getQueryString();
      address.queryParam("to", "{to}");
      redirect(
          request,
          response,
          address
              .encode()
              .buildAndExpand(request.getRequestURI() + (query == null ? "" : "?" + query))
              .toUriString());
    } else {
      redirect(request, response, address.toUriString());
    }
  }

  private static void refuse(
      HttpServletRequest request, HttpServletResponse response, AccessDeniedException reason)
      throws IOException {
    if (SecurityContextHolder.getContext().getAuthentication()
        instanceof ViewerAuthentication who) {
      if (who.mustChangePassword()) {
        redirect(request, response, request.getContextPath() + "/password");
        return;
      }
      boolean home = request.getRequestURI().equals(request.getContextPath() + "/");
      if (home && who.getPrincipal().role() != Role.OFFICE) {
        redirect(request, response, request.getContextPath() + Section.home(who.getPrincipal()));
        return;
      }
    }
    response.sendError(HttpServletResponse.SC_FORBIDDEN);
  }

  /** A request by htmx is told to load the whole page anew; anything else is redirected. */
  private static void redirect(
      HttpServletRequest request, HttpServletResponse response, String address) throws IOException {
    if (request.getHeader("HX-Request") != null) {
      response.setHeader("HX-Redirect", address);
      response.setStatus(HttpServletResponse.SC_NO_CONTENT);
    } else {
      response.sendRedirect(address);
    }
  }
}
