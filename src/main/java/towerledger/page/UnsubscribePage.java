package towerledger.page;

import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpStatus;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.report.Leavers;

/**
 * Leaving the list of a report without signing in. The link's secret is all it takes; opening it
 * changes nothing, so that a scanner of links unsubscribes nobody, and one POST does (RFC 8058).
 */
@Controller
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
class UnsubscribePage {

  private final Leavers leavers;

  UnsubscribePage(Leavers leavers) {
    this.leavers = leavers;
  }

  /**
   * What the page shows.
   *
   * @param token secret of the link
   * @param recipient whose address it is
   * @param left whether they have just left
   */
  record View(String token, String recipient, boolean left) {}

  @GetMapping("/unsubscribe/{token}")
  String show(@PathVariable String token, Model model) {
    return page(token, false, model);
  }

  @PostMapping("/unsubscribe/{token}")
  String leave(
      @PathVariable String token,
      @RequestParam(name = "List-Unsubscribe", required = false) @Nullable String oneClick,
      Model model) {
    if (!leavers.leave(token, oneClick == null ? "link" : "one-click")) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND);
    }
    return page(token, true, model);
  }

  private String page(String token, boolean left, Model model) {
    String recipient =
        leavers
            .findRecipient(token)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    model.addAttribute("view", new View(token, recipient, left));
    return "unsubscribe";
  }

  /** No cookie comes with a mail program's click, so no token of a form can. */
  @Configuration(proxyBeanMethods = false)
  static class Door {

    @Bean
    @Order(22)
    SecurityFilterChain unsubscribe(HttpSecurity http, BrowserSecurity browser) throws Exception {
      return browser
          .common(http)
          .securityMatcher("/unsubscribe/*")
          .csrf(AbstractHttpConfigurer::disable)
          .authorizeHttpRequests(requests -> requests.anyRequest().permitAll())
          .build();
    }
  }
}
