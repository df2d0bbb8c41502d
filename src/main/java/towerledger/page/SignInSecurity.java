package towerledger.page;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.web.SecurityFilterChain;
import towerledger.account.Devices;
import towerledger.account.Role;
import towerledger.account.SignInAttempt;
import towerledger.account.TooManyAttempts;
import towerledger.account.ViewerAuthentication;

/** Signing in and out, and the files every page needs. */
@Configuration(proxyBeanMethods = false)
class SignInSecurity {

  private static final Pattern OWN_PATH =
      Pattern.compile(
          "(/|(/(?!\\.{1,2}(/|[?#]|$))[!-~&&[^/?#;%\\\\{}]]+)+/?)([?#][!-~&&[^\\\\{}]]*)?");

  @Bean
  @Order(20)
  SecurityFilterChain files(HttpSecurity http) throws Exception {
    return http.securityMatcher(
            "/assets/**", "/webjars/**", "/palette.css", "/favicon.ico", "/robots.txt")
        .csrf(AbstractHttpConfigurer::disable)
        .requestCache(AbstractHttpConfigurer::disable)
        .sessionManagement(
            session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
        .headers(headers -> headers.cacheControl(cache -> cache.disable()))
        .authorizeHttpRequests(requests -> requests.anyRequest().permitAll())
        .build();
  }

  @Bean
  @Order(21)
  SecurityFilterChain signIn(HttpSecurity http, BrowserSecurity browser, Devices devices)
      throws Exception {
    return browser
        .common(http)
        .securityMatcher(
            "/sign-in",
            "/sign-out",
            "/password/**",
            "/invitation/**",
            "/me/**",
            "/error",
            "/preferences")
        .formLogin(
            form ->
                form.loginPage("/sign-in")
                    .usernameParameter("email")
                    .passwordParameter("password")
                    .authenticationDetailsSource(SignInAttempt::of)
                    .successHandler(
                        (request, response, who) -> {
                          if (who instanceof ViewerAuthentication viewer) {
                            devices.remember(viewer.getPrincipal().personId(), request, response);
                          }
                          response.sendRedirect(request.getContextPath() + next(request, who));
                        })
                    .failureHandler(
                        (request, response, reason) ->
                            response.sendRedirect(
                                request.getContextPath()
                                    + (reason instanceof TooManyAttempts
                                        ? "/sign-in?wait"
                                        : "/sign-in?wrong"))))
        .logout(signOut -> signOut.logoutUrl("/sign-out").logoutSuccessUrl("/sign-in?signed-out"))
        .authorizeHttpRequests(
            requests ->
                requests
                    .dispatcherTypeMatchers(DispatcherType.ERROR)
                    .permitAll()
                    .requestMatchers(
                        "/sign-in", "/sign-out", "/invitation/**", "/error", "/preferences")
                    .permitAll()
                    .requestMatchers("/me/**")
                    .hasAnyRole(Role.OFFICE.name(), Role.TECHNICIAN.name(), Role.CUSTOMER.name())
                    .requestMatchers("/password")
                    .authenticated()
                    .requestMatchers("/password/**")
                    .permitAll())
        .build();
  }

  private static String next(HttpServletRequest request, Authentication who) {
    if (who instanceof ViewerAuthentication viewer) {
      if (viewer.mustChangePassword()) {
        return "/password";
      }
      boolean customer = viewer.getPrincipal().role() == Role.CUSTOMER;
      String wish = request.getParameter("to");
      String home = Section.home(viewer.getPrincipal());
      return isOwnPath(wish) && wish != null && (!customer || wish.startsWith("/portal"))
          ? wish
          : home;
    }
    return "/";
  }

  /**
   * Whether an address leads to a page of this program and to nowhere else: a plain path, with no
   * step that a browser or proxy would take out and so make another host's address of the rest.
   */
  static boolean isOwnPath(@Nullable String wish) {
    return wish != null
        && wish.length() <= 2000
        && OWN_PATH.matcher(wish).matches()
        && !wish.startsWith("/sign-");
  }
}
