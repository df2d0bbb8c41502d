package towerledger.page;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.sql.SQLException;
import java.sql.SQLNonTransientConnectionException;
import java.sql.SQLTransientConnectionException;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.springframework.web.servlet.ModelAndView;

/**
 * Tells whoever sent something, and the log, that the machine fails and not the request: the
 * ledger's disk is full (507), or its database does not answer (503), wherever it showed. The
 * answer asks nothing of the database, which would only wait once more.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
public class Outage extends OncePerRequestFilter implements HandlerExceptionResolver, Ordered {

  private static final Logger LOG = LoggerFactory.getLogger(Outage.class);

  /** When a database that was away is worth asking again, in seconds. */
  private static final String LATER = "30";

  private final BareAnswer answer;

  Outage(BareAnswer answer) {
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
    boolean full = isFull(failure);
    if (response.isCommitted() || !(full || isAway(failure))) {
      return false;
    }
    if (full) {
      LOG.error(
          "the disk is full: nothing of {} was kept; make room, the ledger then goes on by itself",
          request.getRequestURI());
    } else {
      LOG.error("the database does not answer {}: {}", request.getRequestURI(), failure.toString());
      response.setHeader(HttpHeaders.RETRY_AFTER, LATER);
    }
    try {
      answer.write(
          response,
          full ? HttpStatus.INSUFFICIENT_STORAGE : HttpStatus.SERVICE_UNAVAILABLE,
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
    return causes(failure)
        .filter(IOException.class::isInstance)
        .map(cause -> String.valueOf(cause.getMessage()))
        .anyMatch(
            says ->
                says.contains("No space left on device")
                    || says.contains("Disk quota exceeded")
                    || says.contains("not enough space on the disk"));
  }

  /**
   * Whether a failure comes of a database that is away, shuts down or starts: SQLSTATE class 08 of
   * ISO/IEC 9075-2, 57P01 to 57P03 of PostgreSQL's manual (appendix A), or what a driver throws
   * where a connection is no more.
   */
  static boolean isAway(Throwable failure) {
    return causes(failure)
        .anyMatch(
            cause ->
                cause instanceof SQLTransientConnectionException
                    || cause instanceof SQLNonTransientConnectionException
                    || (cause instanceof SQLException sql
                        && sql.getSQLState() != null
                        && (sql.getSQLState().startsWith("08")
                            || sql.getSQLState().startsWith("57P0"))));
  }

  private static Stream<Throwable> causes(Throwable failure) {
    return Stream.iterate(failure, cause -> cause != null, Throwable::getCause).limit(50);
  }
}
