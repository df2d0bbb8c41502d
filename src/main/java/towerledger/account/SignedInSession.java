package towerledger.account;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.servlet.http.HttpSession;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.context.DeferredSecurityContext;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.context.HttpRequestResponseHolder;
import org.springframework.security.web.context.SecurityContextRepository;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.stereotype.Component;

/**
 * Who is signed in, kept in the session as the person's key and the round of their sessions, and
 * read afresh from the database at every request.
 *
 * <p>A person who was removed, or whose sessions were ended on any node, is signed out at the next
 * request. Nothing but text and numbers is stored, so an upgrade of a library cannot make a stored
 * session unreadable.
 */
@Component
public class SignedInSession implements SecurityContextRepository {

  /** The longest a session lasts without signing in again, used or not. */
  static final Duration LONGEST = Duration.ofHours(12);

  /** How long a session lasts unused. */
  static final Duration LONGEST_IDLE = Duration.ofMinutes(30);

  static final String FROM = "towerledger.from";
  static final String BROWSER = "towerledger.browser";
  private static final int LONGEST_BROWSER = 200;

  private static final String PERSON = "towerledger.person";
  private static final String ROUND = "towerledger.round";
  private static final String BEGAN = "towerledger.began";

  private final PersonRows people;
  private final JdbcClient jdbc;
  private final Clock clock;

  SignedInSession(PersonRows people, JdbcClient jdbc, Clock clock) {
    this.people = people;
    this.jdbc = jdbc;
    this.clock = clock;
  }

  @Override
  public DeferredSecurityContext loadDeferredContext(HttpServletRequest request) {
    return new Deferred(request);
  }

  @Override
  @SuppressWarnings("deprecation") // the interface still asks for it
  public SecurityContext loadContext(HttpRequestResponseHolder holder) {
    return load(holder.getRequest());
  }

  @Override
  public void saveContext(
      SecurityContext context, HttpServletRequest request, HttpServletResponse response) {
    if (context.getAuthentication() instanceof ViewerAuthentication signedIn) {
      Person person = people.findById(signedIn.getPrincipal().personId()).orElseThrow();
      HttpSession session = request.getSession(true);
      session.setAttribute(PERSON, person.id());
      session.setAttribute(ROUND, person.sessionRound());
      session.setAttribute(BEGAN, clock.millis());
      session.setAttribute(FROM, String.valueOf(request.getRemoteAddr()));
      String browser = request.getHeader(HttpHeaders.USER_AGENT);
      session.setAttribute(
          BROWSER,
          browser == null ? "" : browser.substring(0, Math.min(browser.length(), LONGEST_BROWSER)));
      session.setAttribute(
          FindByIndexNameSessionRepository.PRINCIPAL_NAME_INDEX_NAME, person.email());
      Duration idle = person.role() == Role.TECHNICIAN ? LONGEST : LONGEST_IDLE;
      session.setMaxInactiveInterval((int) idle.toSeconds());
      return;
    }
    HttpSession session = request.getSession(false);
    if (session != null) {
      session.removeAttribute(PERSON);
      session.removeAttribute(FindByIndexNameSessionRepository.PRINCIPAL_NAME_INDEX_NAME);
    }
  }

  @Override
  public boolean containsContext(HttpServletRequest request) {
    HttpSession session = request.getSession(false);
    return session != null && session.getAttribute(PERSON) != null;
  }

  private SecurityContext load(HttpServletRequest request) {
    SecurityContext context = SecurityContextHolder.createEmptyContext();
    HttpSession session = request.getSession(false);
    if (session != null && session.getAttribute(PERSON) instanceof Long personId) {
      Optional<SignedInPerson> person =
          SignedInPerson.find(jdbc, personId).filter(p -> isOpen(session, p));
      if (person.isPresent()) {
        context.setAuthentication(person.get().authentication());
      } else {
        session.invalidate();
      }
    }
    return context;
  }

  private boolean isOpen(HttpSession session, SignedInPerson person) {
    return person.enabled()
        && session.getAttribute(ROUND) instanceof Long round
        && round == person.sessionRound()
        && session.getAttribute(BEGAN) instanceof Long began
        && clock.instant().isBefore(Instant.ofEpochMilli(began).plus(LONGEST));
  }

  /** Looks the person up only when somebody asks. */
  private final class Deferred implements DeferredSecurityContext {

    private final HttpServletRequest request;
    private @Nullable SecurityContext context;

    Deferred(HttpServletRequest request) {
      this.request = request;
    }

    @Override
    public SecurityContext get() {
      SecurityContext present = context;
      if (present == null) {
        present = load(request);
        context = present;
      }
      return present;
    }

    @Override
    public boolean isGenerated() {
      return !containsContext(request);
    }
  }
}
