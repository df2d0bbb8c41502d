package towerledger.api;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.HttpStatus;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.authentication.AnonymousAuthenticationToken;
import org.springframework.security.config.Customizer;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.annotation.web.configurers.ExceptionHandlingConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.intercept.AuthorizationFilter;
import org.springframework.security.web.authentication.UsernamePasswordAuthenticationFilter;
import org.springframework.security.web.servlet.util.matcher.PathPatternRequestMatcher;
import towerledger.account.CurrentViewer;
import towerledger.account.RequestLimits;
import towerledger.account.Role;
import towerledger.account.SignInAttempt;
import towerledger.account.SignedInSession;
import towerledger.account.Tokens;
import towerledger.account.TooManyAttempts;
import towerledger.account.ViewerAuthentication;

/**
 * Who may call the REST contract: bearers of tokens, without sessions; e-mail and password only
 * where a token is made; its description for anybody signed in either way; the health check for
 * everybody.
 */
@Configuration(proxyBeanMethods = false)
class ApiSecurity {

  static final String TOKENS = "/api/v1/tokens";

  private static final String[] ROLES = {
    Role.OFFICE.name(), Role.TECHNICIAN.name(), Role.CUSTOMER.name()
  };

  private final Tokens tokens;
  private final ProblemWriter problems;

  private final GivenAnswers answers;
  private final CurrentViewer currentViewer;
  private final RequestLimits limits;

  ApiSecurity(
      Tokens tokens,
      ProblemWriter problems,
      GivenAnswers answers,
      CurrentViewer currentViewer,
      RequestLimits limits) {
    this.limits = limits;
    this.tokens = tokens;
    this.answers = answers;
    this.currentViewer = currentViewer;
    this.problems = problems;
  }

  @Bean
  @Order(10)
  SecurityFilterChain tokenRequests(HttpSecurity http) throws Exception {
    return stateless(http)
        .securityMatcher(PathPatternRequestMatcher.pathPattern(HttpMethod.POST, TOKENS))
        .httpBasic(
            basic ->
                basic
                    .authenticationDetailsSource(SignInAttempt::of)
                    .authenticationEntryPoint(this::askForPassword))
        .exceptionHandling(refusals(this::askForPassword))
        .build();
  }

  @Bean
  @Order(11)
  SecurityFilterChain apiRequests(HttpSecurity http) throws Exception {
    return stateless(http)
        .securityMatcher("/api/**")
        .addFilterBefore(
            new BearerTokens(tokens, limits, problems), UsernamePasswordAuthenticationFilter.class)
        .addFilterAfter(
            new IdempotentPosts(answers, currentViewer, problems), AuthorizationFilter.class)
        .exceptionHandling(refusals(this::askForToken))
        .build();
  }

  /**
   * Links on pages lead to downloads here: who is signed in may look, by the session, and do no
   * more. A request that brings a token is the other chain's.
   */
  @Bean
  @Order(9)
  SecurityFilterChain looksFromPages(HttpSecurity http, SignedInSession session) throws Exception {
    return stateless(http)
        .securityMatcher(ApiSecurity::isLookFromPage)
        .securityContext(context -> context.securityContextRepository(session))
        .exceptionHandling(refusals(this::askForToken))
        .build();
  }

  private static boolean isLookFromPage(HttpServletRequest request) {
    return HttpMethod.GET.matches(request.getMethod())
        && request.getRequestURI().startsWith(request.getContextPath() + "/api/")
        && request.getHeader(HttpHeaders.AUTHORIZATION) == null;
  }

  @Bean
  @Order(12)
  SecurityFilterChain apiDescription(HttpSecurity http, SignedInSession session) throws Exception {
    return stateless(http)
        .securityMatcher("/v3/api-docs/**", "/v3/api-docs.yaml")
        .securityContext(context -> context.securityContextRepository(session))
        .addFilterBefore(
            new BearerTokens(tokens, limits, problems), UsernamePasswordAuthenticationFilter.class)
        .exceptionHandling(refusals(this::askForToken))
        .build();
  }

  @Bean
  @Order(13)
  SecurityFilterChain health(HttpSecurity http) throws Exception {
    return http.securityMatcher("/actuator/**")
        .csrf(AbstractHttpConfigurer::disable)
        .requestCache(AbstractHttpConfigurer::disable)
        .sessionManagement(
            session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
        .authorizeHttpRequests(
            requests ->
                requests
                    .requestMatchers(HttpMethod.GET, "/actuator/health", "/actuator/health/*")
                    .permitAll()
                    .anyRequest()
                    .denyAll())
        .exceptionHandling(refusals(this::askForToken))
        .build();
  }

  /** No session, no cookie, hence no forged request to guard against; all closed by default. */
  private static HttpSecurity stateless(HttpSecurity http) throws Exception {
    return http.csrf(AbstractHttpConfigurer::disable)
        .requestCache(AbstractHttpConfigurer::disable)
        .logout(AbstractHttpConfigurer::disable)
        .sessionManagement(
            session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
        .headers(
            headers ->
                headers.contentSecurityPolicy(
                    policy ->
                        policy.policyDirectives("default-src 'none'; frame-ancestors 'none'")))
        .authorizeHttpRequests(requests -> requests.anyRequest().hasAnyRole(ROLES));
  }

  private Customizer<ExceptionHandlingConfigurer<HttpSecurity>> refusals(
      AuthenticationEntryPoint asking) {
    return refusals -> refusals.authenticationEntryPoint(asking).accessDeniedHandler(this::refuse);
  }

  private void askForPassword(
      HttpServletRequest request, HttpServletResponse response, AuthenticationException reason)
      throws IOException {
    if (reason instanceof TooManyAttempts tooMany) {
      response.setHeader(HttpHeaders.RETRY_AFTER, Long.toString(tooMany.retryAfterS()));
      problems.write(
          request,
          response,
          HttpStatus.TOO_MANY_REQUESTS,
          "Too many sign-in attempts. Try again in %d seconds.".formatted(tooMany.retryAfterS()));
      return;
    }
    response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Basic realm=\"Tower Water Ledger\"");
    problems.write(
        request,
        response,
        HttpStatus.UNAUTHORIZED,
        request.getHeader(HttpHeaders.AUTHORIZATION) == null
            ? "Send your e-mail and password by HTTP Basic to get a token."
            : "E-mail or password is wrong.");
  }

  private void askForToken(
      HttpServletRequest request, HttpServletResponse response, AuthenticationException reason)
      throws IOException {
    response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer");
    problems.write(
        request,
        response,
        HttpStatus.UNAUTHORIZED,
        "Send a token as 'Authorization: Bearer …'. POST /api/v1/tokens makes one from e-mail and"
            + " password by HTTP Basic, which nothing else takes.");
  }

  private void refuse(
      HttpServletRequest request, HttpServletResponse response, AccessDeniedException reason)
      throws IOException {
    problems.write(request, response, HttpStatus.FORBIDDEN, refusal(request));
  }

  private static String refusal(HttpServletRequest request) {
    var who = SecurityContextHolder.getContext().getAuthentication();
    if (who instanceof ViewerAuthentication viewer && viewer.mustChangePassword()) {
      return "This one-time password is good for choosing your own password only: sign in with a"
          + " browser first.";
    }
    return who == null || who instanceof AnonymousAuthenticationToken
        ? "Nothing is open here."
        : "Your role or the scope of your token does not allow %s here."
            .formatted(request.getMethod());
  }
}
