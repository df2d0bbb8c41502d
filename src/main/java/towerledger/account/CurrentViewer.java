package towerledger.account;

import java.util.Optional;
import org.springframework.security.authentication.InsufficientAuthenticationException;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;

/** Tells who asks, inside a web request. A background job has no viewer. */
@Component
public class CurrentViewer {

  /**
   * The viewer of this request.
   *
   * @throws InsufficientAuthenticationException if nobody is signed in
   */
  public Viewer get() {
    return find()
        .orElseThrow(
            () -> new InsufficientAuthenticationException("nobody is signed in at this point"));
  }

  public Optional<Viewer> find() {
    return SecurityContextHolder.getContext().getAuthentication() instanceof ViewerAuthentication a
        ? Optional.of(a.getPrincipal())
        : Optional.empty();
  }

  /** The viewer as the author of a change, with the network address the request came from. */
  public Actor actor() {
    return Actor.of(get(), address());
  }

  private static String address() {
    return RequestContextHolder.getRequestAttributes() instanceof ServletRequestAttributes web
        ? String.valueOf(web.getRequest().getRemoteAddr())
        : "no request";
  }
}
