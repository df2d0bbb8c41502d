package towerledger.account;

import jakarta.servlet.Filter;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Primary;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.session.jdbc.config.annotation.web.http.EnableJdbcHttpSession;
import org.springframework.session.web.http.SessionRepositoryFilter;

/**
 * Puts {@link HashedSessions} between the cookies and the database. Whoever has not signed in yet
 * has a session for half an hour; {@link SignedInSession} says how long others last.
 */
@Configuration(proxyBeanMethods = false)
@EnableJdbcHttpSession(maxInactiveIntervalInSeconds = 30 * 60)
class SessionSetting {

  @Bean
  SessionNames sessionNames() {
    return new SessionNames();
  }

  @Bean
  @Primary
  HashedSessions<? extends Session> hashedSessions(
      FindByIndexNameSessionRepository<? extends Session> kept, SessionNames names) {
    return hashed(kept, names);
  }

  @Bean
  FilterRegistrationBean<Filter> sessionReadOnce(HashedSessions<? extends Session> sessions) {
    var filter = new FilterRegistrationBean<>(sessions.readOnce());
    filter.setOrder(SessionRepositoryFilter.DEFAULT_ORDER - 1);
    return filter;
  }

  private static <S extends Session> HashedSessions<S> hashed(
      FindByIndexNameSessionRepository<S> kept, SessionNames names) {
    return new HashedSessions<>(kept, names);
  }
}
