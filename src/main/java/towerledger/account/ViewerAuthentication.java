package towerledger.account;

import java.io.Serial;
import java.util.List;
import org.springframework.security.authentication.AbstractAuthenticationToken;
import org.springframework.security.core.authority.SimpleGrantedAuthority;

/** A {@link Viewer} as Spring Security carries it through one request; never kept in a session. */
public final class ViewerAuthentication extends AbstractAuthenticationToken {

  @Serial private static final long serialVersionUID = 1L;

  /** Held instead of a role by somebody who has to choose an own password before anything else. */
  public static final String MUST_CHANGE_PASSWORD = "MUST_CHANGE_PASSWORD";

  private final transient Viewer viewer;

  /** A viewer with the power of role and scope. */
  public ViewerAuthentication(Viewer viewer) {
    this(viewer, List.of("ROLE_" + viewer.role().name(), "SCOPE_" + viewer.scope().name()));
  }

  private ViewerAuthentication(Viewer viewer, List<String> authorities) {
    super(authorities.stream().map(SimpleGrantedAuthority::new).toList());
    this.viewer = viewer;
    setAuthenticated(true);
  }

  /** A person who signed in by form or HTTP Basic. */
  static ViewerAuthentication of(Person person) {
    return person.mustChangePassword()
        ? mustChangePassword(person.viewer())
        : new ViewerAuthentication(person.viewer());
  }

  /** Somebody who has to choose an own password before anything else. */
  static ViewerAuthentication mustChangePassword(Viewer viewer) {
    return new ViewerAuthentication(viewer, List.of(MUST_CHANGE_PASSWORD));
  }

  /** Whether nothing but choosing an own password is open. */
  public boolean mustChangePassword() {
    return getAuthorities().stream().anyMatch(a -> MUST_CHANGE_PASSWORD.equals(a.getAuthority()));
  }

  @Override
  public Viewer getPrincipal() {
    return viewer;
  }

  /** Nothing: what proved the identity is not kept. */
  @Override
  public Object getCredentials() {
    return "";
  }

  @Override
  public String getName() {
    return viewer.email();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof ViewerAuthentication that && viewer.equals(that.viewer);
  }

  @Override
  public int hashCode() {
    return viewer.hashCode();
  }
}
