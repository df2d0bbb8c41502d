package towerledger.page;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.springframework.web.servlet.ModelAndView;

/**
 * Tells whoever sent something, and the log, that the ledger's disk is full, wherever it showed: in
 * an upload, before any handler, or in the embedded database. Sending it again would not help
 * before there is room.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
public class FullDisk extends OncePerRequestFilter implements HandlerExceptionResolver, Ordered {

  private static final Logger LOG = LoggerFactory.getLogger(FullDisk.class);

  private final BareAnswer answer;

  FullDisk(BareAnswer answer) {
    this.answer = answer;
  }

  @Override
  public int getOrder() {
    return HIGHEST_PRECEDENCE;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    try {
      chain.doFilter(request, response);
    } catch (IOException | ServletException | RuntimeException failure) {
      if (!tell(request, response, failure)) {
        throw failure;
      }
    }
  }

  @Override
  public @Nullable ModelAndView resolveException(
      HttpServletRequest request,
      HttpServletResponse response,
      @Nullable Object handler,
      Exception failure) {
    return tell(request, response, failure) ? new ModelAndView() : null;
  }

  private boolean tell(
      HttpServletRequest request, HttpServletResponse response, Exception failure) {
    if (response.isCommitted() || !isFull(failure)) {
      return false;
    }
    LOG.error(
        "the disk is full: nothing of {} was kept; make room, and start the ledger anew if its"
            + " embedded database lies there",
        request.getRequestURI());
    try {
      answer.write(
          response,
          HttpStatus.INSUFFICIENT_STORAGE,
          request.getRequestURI().substring(request.getContextPath().length()),
          request.getLocale());
    } catch (IOException gone) {
      LOG.debug("nobody waits for the answer", gone);
    }
    return true;
  }

  /**
   * Whether a failure comes of a full disk. Operating systems tell it in words; Java has no type of
   * its own for it.
   */
  public static boolean isFull(Throwable failure) {
    return Stream.iterate(failure, cause -> cause != null, Throwable::getCause)
        .limit(50)
        .filter(IOException.class::isInstance)
        .map(cause -> String.valueOf(cause.getMessage()))
        .anyMatch(
            says ->
                says.contains("No space left on device")
                    || says.contains("Disk quota exceeded")
                    || says.contains("not enough space on the disk"));
  }
}
