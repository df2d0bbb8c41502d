package towerledger.page;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Arrays;
import java.util.Objects;
import java.util.stream.Stream;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpStatus;
import org.springframework.web.multipart.MultipartFile;
import org.springframework.web.multipart.MultipartHttpServletRequest;
import org.springframework.web.server.ResponseStatusException;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.springframework.web.util.WebUtils;

/**
 * Refuses, before any handler, a parameter or the name of an upload that holds the character of
 * code zero: nobody types it, PostgreSQL keeps no text that has it, and a search for it would end
 * as a fault of the program.
 */
@Configuration(proxyBeanMethods = false)
class NoNullCharacter implements WebMvcConfigurer, HandlerInterceptor {

  @Override
  public void addInterceptors(InterceptorRegistry registry) {
    registry.addInterceptor(this);
  }

  @Override
  public boolean preHandle(
      HttpServletRequest request, HttpServletResponse response, Object handler) {
    // The page that tells of the refusal is asked for with the same parameters.
    if (request.getDispatcherType() == DispatcherType.REQUEST
        && Stream.concat(parameters(request), fileNames(request))
            .anyMatch(value -> value.indexOf('\0') >= 0)) {
      throw new ResponseStatusException(
          HttpStatus.BAD_REQUEST,
          "A parameter or a file's name holds a character that is no text.");
    }
    return true;
  }

  private static Stream<String> parameters(HttpServletRequest request) {
    return request.getParameterMap().values().stream()
        .flatMap(Arrays::stream)
        .filter(Objects::nonNull);
  }

  private static Stream<String> fileNames(HttpServletRequest request) {
    MultipartHttpServletRequest upload =
        WebUtils.getNativeRequest(request, MultipartHttpServletRequest.class);
    return upload == null
        ? Stream.empty()
        : upload.getMultiFileMap().values().stream()
            .flatMap(files -> files.stream().map(MultipartFile::getOriginalFilename))
            .filter(Objects::nonNull);
  }
}
