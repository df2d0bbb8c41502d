package towerledger.account;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.AnnotatedElementUtils;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/**
 * Stands before every handler and lets in whom {@link OpenTo} names. Whether somebody has to be
 * signed in at all is the security chain's to say; nobody signed in means the chain left it open.
 */
@Configuration(proxyBeanMethods = false)
class Doorman implements WebMvcConfigurer, HandlerInterceptor {

  private static final Set<String> CHANGES_NOTHING = Set.of("GET", "HEAD", "OPTIONS", "TRACE");

  private final CurrentViewer currentViewer;

  Doorman(CurrentViewer currentViewer) {
    this.currentViewer = currentViewer;
  }

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry.addInterceptor(this);
  }

  @Override
  public boolean preHandle(
      HttpServletRequest request, HttpServletResponse response, Object handler) {
    Optional<Viewer> viewer = currentViewer.find();
    if (viewer.isPresent()
        && handler instanceof HandlerMethod method
        && method.getBeanType().getName().startsWith("towerledger.")
        && !lets(viewer.get(), method, request.getMethod())) {
      throw new AccessDeniedException(
          "%s of scope %s is not let in to %s %s"
              .formatted(
                  viewer.get().role(),
                  viewer.get().scope(),
                  request.getMethod(),
                  request.getRequestURI()));
    }
    return true;
  }

  /** Whether a viewer may use a handler with an HTTP method. */
  static boolean lets(Viewer viewer, HandlerMethod handler, String httpMethod) {
    OpenTo door = door(handler);
    boolean expected =
        door == null
            ? viewer.role() == defaultRole(handler)
            : Arrays.asList(door.value()).contains(viewer.role());
    return expected && may(viewer, door == null ? OpenTo.Need.BY_METHOD : door.need(), httpMethod);
  }

  private static boolean may(Viewer viewer, OpenTo.Need need, String httpMethod) {
    return switch (need) {
      case LOOK -> true;
      case ENTER -> viewer.canEnterReadings();
      case CHANGE -> viewer.scope() == TokenScope.ALL;
      case BY_METHOD -> CHANGES_NOTHING.contains(httpMethod) || viewer.scope() == TokenScope.ALL;
    };
  }

  private static @Nullable OpenTo door(HandlerMethod handler) {
    OpenTo onMethod = handler.getMethodAnnotation(OpenTo.class);
    return onMethod == null
        ? AnnotatedElementUtils.findMergedAnnotation(handler.getBeanType(), OpenTo.class)
        : onMethod;
  }

  private static Role defaultRole(HandlerMethod handler) {
    return handler.getBeanType().getName().startsWith("towerledger.portal.")
        ? Role.CUSTOMER
        : Role.OFFICE;
  }
}
