package towerledger.account;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.HashMap;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.session.MapSession;
import org.springframework.session.MapSessionRepository;
import org.springframework.session.Session;
import org.springframework.transaction.support.TransactionOperations;

/** What is kept of a session answers to its id and does not contain it. */
class HashedSessionsTest {

  private final SessionNames names = new SessionNames();
  private final HashMap<String, Session> database = new HashMap<>();
  private final HashedSessions<MapSession> sessions;

  HashedSessionsTest() {
    MapSessionRepository kept = new MapSessionRepository(database);
    kept.setSessionIdGenerator(names);
    var transactions = new SessionTransactions(TransactionOperations.withoutTransaction());
    sessions = new HashedSessions<>(kept, names, transactions);
  }

  private HashedSessions.Known<MapSession> saved() {
    var session = sessions.createSession();
    session.setAttribute("who", "Zoë");
    sessions.save(session);
    return session;
  }

  @Test
  void keepsAHashAndNotTheId() {
    var session = saved();

    assertThat(session.getId()).hasSize(43);
    assertThat(database).containsOnlyKeys(Secrets.hash(session.getId()));
    assertThat(database.values()).noneMatch(kept -> kept.getId().equals(session.getId()));
  }

  @Test
  void opensToTheIdAndNotToWhatIsKept() {
    var session = saved();

    assertThat(sessions.findById(session.getId()))
        .satisfies(found -> assertThat(found.<String>getAttribute("who")).isEqualTo("Zoë"))
        .satisfies(found -> assertThat(found.getId()).isEqualTo(session.getId()));
    assertThat(sessions.findById(Secrets.hash(session.getId()))).isNull();
  }

  @Test
  void givesANewIdAndForgetsTheOld() {
    var session = saved();
    String old = session.getId();

    String fresh = session.changeSessionId();
    sessions.save(session);

    assertThat(fresh).isNotEqualTo(old).isEqualTo(session.getId());
    assertThat(sessions.findById(old)).isNull();
    assertThat(sessions.findById(fresh)).isNotNull();
  }

  @Test
  void tellsOfAUseAtMostOnceAMinute() {
    var session = saved();
    Instant made = session.getLastAccessedTime();

    session.setLastAccessedTime(made.plusSeconds(59));
    assertThat(session.getLastAccessedTime()).isEqualTo(made);

    session.setLastAccessedTime(made.plusSeconds(60));
    assertThat(session.getLastAccessedTime()).isEqualTo(made.plusSeconds(60));
  }

  @Test
  void isReadOnceInARequestAndAnewInTheNext() throws Exception {
    String id = saved().getId();

    sessions
        .readOnce()
        .doFilter(
            new MockHttpServletRequest(),
            new MockHttpServletResponse(),
            (request, response) -> {
              var read = sessions.findById(id);
              database.clear();
              assertThat(sessions.findById(id)).isNotNull().isSameAs(read);
              sessions.deleteById(id);
              assertThat(sessions.findById(id)).as("once it is ended").isNull();
            });

    assertThat(sessions.findById(id)).isNull();
  }

  @Test
  void endsOneByItsId() {
    var session = saved();

    sessions.deleteById(session.getId());

    assertThat(database).isEmpty();
  }
}
