package towerledger.portal;

import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.web.SecurityFilterChain;
import towerledger.account.Role;
import towerledger.page.BrowserSecurity;

/** The customer's pages are for customers' logins. */
@Configuration(proxyBeanMethods = false)
class PortalSecurity {

  @Bean
  @Order(30)
  SecurityFilterChain portalRequests(HttpSecurity http, BrowserSecurity browser) throws Exception {
    return browser
        .common(http)
        .securityMatcher("/portal", "/portal/**")
        .authorizeHttpRequests(requests -> requests.anyRequest().hasRole(Role.CUSTOMER.name()))
        .build();
  }
}
