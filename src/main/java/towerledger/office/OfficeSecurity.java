package towerledger.office;

import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.web.SecurityFilterChain;
import towerledger.account.Role;
import towerledger.page.BrowserSecurity;

/** All that no other edge has claimed is the contractor's own. */
@Configuration(proxyBeanMethods = false)
class OfficeSecurity {

  @Bean
  @Order(100)
  SecurityFilterChain officeRequests(HttpSecurity http, BrowserSecurity browser) throws Exception {
    return browser
        .common(http)
        .securityMatcher("/**")
        .authorizeHttpRequests(
            requests ->
                requests.anyRequest().hasAnyRole(Role.OFFICE.name(), Role.TECHNICIAN.name()))
        .build();
  }
}
