package towerledger.account;

import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Primary;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.session.SessionRepository;
import org.springframework.session.jdbc.config.annotation.web.http.EnableJdbcHttpSession;

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
  SessionRepository<? extends Session> hashedSessions(
      FindByIndexNameSessionRepository<? extends Session> kept, SessionNames names) {
    return hashed(kept, names);
  }

  private static <S extends Session> HashedSessions<S> hashed(
      FindByIndexNameSessionRepository<S> kept, SessionNames names) {
    return new HashedSessions<>(kept, names);
  }
}
