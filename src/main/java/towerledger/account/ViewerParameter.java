package towerledger.account;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.MethodParameter;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** Lets a controller method take the {@link Viewer} or the {@link Actor} as a parameter. */
@Configuration(proxyBeanMethods = false)
class ViewerParameter implements WebMvcConfigurer, HandlerMethodArgumentResolver {

  private final CurrentViewer currentViewer;

  ViewerParameter(CurrentViewer currentViewer) {
    this.currentViewer = currentViewer;
  }

  @Override
  public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
    resolvers.add(this);
  }

  @Override
  public boolean supportsParameter(MethodParameter parameter) {
    return parameter.getParameterType() == Viewer.class
        || parameter.getParameterType() == Actor.class;
  }

  @Override
  public Object resolveArgument(
      MethodParameter parameter,
      @Nullable ModelAndViewContainer container,
      NativeWebRequest request,
      @Nullable WebDataBinderFactory binderFactory) {
    return parameter.getParameterType() == Actor.class
        ? currentViewer.actor()
        : currentViewer.get();
  }
}
