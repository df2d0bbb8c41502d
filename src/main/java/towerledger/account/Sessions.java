package towerledger.account;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.stereotype.Component;

/** Where a person is signed in. */
@Component
public class Sessions {

  /**
   * One browser signed in.
   *
   * @param key names the session on a page; not the secret in the cookie
   * @param began when it was signed in
   * @param lastUsed when it was last seen
   * @param from network address it was signed in from
   * @param browser what the browser called itself, shortened
   * @param current whether it is the one asking
   */
  public record SignedInAt(
      String key, Instant began, Instant lastUsed, String from, String browser, boolean current) {}

  private final FindByIndexNameSessionRepository<? extends Session> repository;

  Sessions(FindByIndexNameSessionRepository<? extends Session> repository) {
    this.repository = repository;
  }

  /**
   * All open sessions of a person, the last used first.
   *
   * @param currentSessionId id of the session that asks, as its cookie has it
   */
  public List<SignedInAt> list(String email, String currentSessionId) {
    String current = Secrets.hash(currentSessionId);
    return all(email).values().stream()
        .filter(session -> !session.isExpired())
        .map(session -> signedIn(session, current))
        .sorted(Comparator.comparing(SignedInAt::lastUsed).reversed())
        .toList();
  }

  /** Ends one session of a person; an unknown key changes nothing. */
  public void end(String email, String key) {
    all(email).keySet().stream()
        .filter(id -> key(id).equals(key))
        .findFirst()
        .ifPresent(repository::deleteById);
  }

  private Map<String, ? extends Session> all(String email) {
    return repository.findByPrincipalName(email);
  }

  private static SignedInAt signedIn(Session session, String current) {
    return new SignedInAt(
        key(session.getId()),
        session.getCreationTime(),
        session.getLastAccessedTime(),
        session.getAttributeOrDefault(SignedInSession.FROM, ""),
        session.getAttributeOrDefault(SignedInSession.BROWSER, ""),
        session.getId().equals(current));
  }

  private static String key(String keptName) {
    return keptName.substring(0, 16);
  }
}
