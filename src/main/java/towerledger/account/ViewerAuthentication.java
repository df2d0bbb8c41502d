package towerledger.account;

import java.io.Serial;
import java.util.stream.Stream;
import org.springframework.security.authentication.AbstractAuthenticationToken;
import org.springframework.security.core.authority.SimpleGrantedAuthority;

/** A {@link Viewer} as Spring Security carries it through one request; never kept in a session. */
public final class ViewerAuthentication extends AbstractAuthenticationToken {

  @Serial private static final long serialVersionUID = 1L;

  private final transient Viewer viewer;

  public ViewerAuthentication(Viewer viewer) {
    super(
        Stream.of("ROLE_" + viewer.role().name(), "SCOPE_" + viewer.scope().name())
            .map(SimpleGrantedAuthority::new)
            .toList());
    this.viewer = viewer;
    setAuthenticated(true);
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
