package towerledger.account;

import jakarta.servlet.Filter;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Primary;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.session.jdbc.config.annotation.web.http.EnableJdbcHttpSession;
import org.springframework.session.web.http.SessionRepositoryFilter;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Puts {@link HashedSessions} between the cookies and the database. Whoever has not signed in yet
 * has a session for half an hour; {@link SignedInSession} says how long others last.
 */
@Configuration(proxyBeanMethods = false)
@EnableJdbcHttpSession(maxInactiveIntervalInSeconds = 30 * 60)
class SessionSetting {

  /** The name under which the library looks for it. */
  private static final String TRANSACTIONS = "springSessionTransactionOperations";

  @Bean
  SessionNames sessionNames() {
    return new SessionNames();
  }

  /** Found by its name alone: whoever asks for transactions gets the usual ones. */
  @Bean(name = TRANSACTIONS, defaultCandidate = false)
  SessionTransactions sessionTransactions(PlatformTransactionManager manager) {
    var own = new TransactionTemplate(manager);
    own.setPropagationBehavior(TransactionDefinition.PROPAGATION_REQUIRES_NEW);
    return new SessionTransactions(own);
  }

  @Bean
  @Primary
  HashedSessions<? extends Session> hashedSessions(
      FindByIndexNameSessionRepository<? extends Session> kept,
      SessionNames names,
      @Qualifier(TRANSACTIONS) SessionTransactions transactions) {
    return hashed(kept, names, transactions);
  }

  @Bean
  FilterRegistrationBean<Filter> sessionReadOnce(HashedSessions<? extends Session> sessions) {
    var filter = new FilterRegistrationBean<>(sessions.readOnce());
    filter.setOrder(SessionRepositoryFilter.DEFAULT_ORDER - 1);
    return filter;
  }

  private static <S extends Session> HashedSessions<S> hashed(
      FindByIndexNameSessionRepository<S> kept,
      SessionNames names,
      SessionTransactions transactions) {
    return new HashedSessions<>(kept, names, transactions);
  }
}
