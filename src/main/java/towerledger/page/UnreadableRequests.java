package towerledger.page;

import java.io.IOException;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ErrorReportValve;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpStatus;

/**
 * Answers what the servlet container refuses before the program sees it (a broken address, a
 * character that has no place in one, headers too long) and what no page of the program could tell.
 */
@Configuration(proxyBeanMethods = false)
class UnreadableRequests {

  private static final Logger LOG = LoggerFactory.getLogger(UnreadableRequests.class);

  @Bean
  WebServerFactoryCustomizer<TomcatServletWebServerFactory> answersToUnreadableRequests(
      BareAnswer answer) {
    return factory ->
        factory.addContextCustomizers(
            context -> context.getParent().getPipeline().addValve(new Answers(answer)));
  }

  /** Stands inside the container's own report, which then finds its work done. */
  private static final class Answers extends ErrorReportValve {

    private final BareAnswer answer;

    Answers(BareAnswer answer) {
      this.answer = answer;
    }

    @Override
    protected void report(Request request, Response response, @Nullable Throwable fault) {
      HttpStatus status = HttpStatus.resolve(response.getStatus());
      if (status == null
          || !status.isError()
          || response.getContentWritten() > 0
          || !response.setErrorReported()) {
        return;
      }
      try {
        answer.write(response, status, request.getRequestURI(), request.getLocale());
        response.finishResponse();
      } catch (IOException gone) {
        LOG.debug("nobody waits for the answer {}", status, gone);
      }
    }
  }
}
