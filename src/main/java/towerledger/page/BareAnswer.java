package towerledger.page;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.stereotype.Component;
import org.springframework.web.util.HtmlUtils;
import tools.jackson.databind.json.JsonMapper;

/**
 * Answers where no handler of the program can: a problem detail (RFC 9457) to whoever asked below
 * {@code /api}, else a plain page that needs neither session nor database.
 */
@Component
class BareAnswer {

  /** What a program is told of a request that cannot be read. */
  private static final String UNREADABLE =
      "The request cannot be read: look for a broken %-code or a character that has no place in an"
          + " address, an unknown method, a header that is malformed, or headers above 8 kB.";

  private static final String NO_ROOM =
      "The disk of the ledger is full; nothing of this was kept. Whoever runs it has to make room;"
          + " send it again then.";

  private static final String AWAY =
      "The database of the ledger does not answer. Whether anything of this was kept is not known:"
          + " look in a minute, or send it again with the same Idempotency-Key.";

  /** For answers that hold no page of the program. */
  static final String NOTHING_RUNS = "default-src 'none'; frame-ancestors 'none'";

  private static final String[][] HEADERS = {
    {"X-Content-Type-Options", "nosniff"},
    {"X-Frame-Options", "DENY"},
    {"Referrer-Policy", "same-origin"},
    {HttpHeaders.CACHE_CONTROL, "no-store"}
  };

  private static final String POLICY = "Content-Security-Policy";

  private final MessageSource messages;
  private final JsonMapper json;

  BareAnswer(MessageSource messages, JsonMapper json) {
    this.messages = messages;
    this.json = json;
  }

  /**
   * Adds the headers that the security chain could not add, as far as they are not there.
   *
   * @param policy the content security policy where the chain set none
   */
  static void guard(HttpServletResponse response, String policy) {
    for (String[] header : HEADERS) {
      if (response.getHeader(header[0]) == null) {
        response.setHeader(header[0], header[1]);
      }
    }
    if (response.getHeader(POLICY) == null) {
      response.setHeader(POLICY, policy);
    }
  }

  /** What a program is told of a refusal. */
  static ProblemDetail problem(HttpStatus status, @Nullable String path) {
    ProblemDetail problem =
        ProblemDetail.forStatusAndDetail(
            status,
            switch (status) {
              case BAD_REQUEST -> UNREADABLE;
              case SERVICE_UNAVAILABLE -> AWAY;
              case INSUFFICIENT_STORAGE -> NO_ROOM;
              default -> status.getReasonPhrase() + ".";
            });
    try {
      problem.setInstance(path == null ? null : URI.create(path));
    } catch (IllegalArgumentException broken) {
      // what was asked for is no address that could be told
    }
    return problem;
  }

  /**
   * Writes the whole answer.
   *
   * @param path what was asked for, as far as it is known
   * @param asked the language that the browser asks for first
   */
  void write(HttpServletResponse response, HttpStatus status, @Nullable String path, Locale asked)
      throws IOException {
    boolean program = path != null && path.startsWith("/api/");
    byte[] body =
        program
            ? json.writeValueAsBytes(problem(status, path))
            : page(status, PageLanguage.of(asked)).getBytes(StandardCharsets.UTF_8);
    // left by an answer that failed on its way: this one is not packed (null removes, Servlet 6.1)
    response.setHeader(HttpHeaders.CONTENT_ENCODING, null);
    guard(response, NOTHING_RUNS);
    response.setStatus(status.value());
    response.setContentType(
        program ? MediaType.APPLICATION_PROBLEM_JSON_VALUE : "text/html;charset=UTF-8");
    response.setContentLength(body.length);
    response.getOutputStream().write(body);
  }

  private String page(HttpStatus status, Locale language) {
    String key = ErrorPage.textKey(status, false);
    String title = HtmlUtils.htmlEscape(messages.getMessage(key + ".title", null, language));
    return """
        <!DOCTYPE html>
        <html lang="%s">
          <head>
            <meta charset="utf-8" />
            <meta name="viewport" content="width=device-width, initial-scale=1" />
            <meta name="color-scheme" content="light dark" />
            <title>%s</title>
          </head>
          <body>
            <p>%d</p>
            <h1>%s</h1>
            <p>%s</p>
            <p><a href="/">%s</a></p>
          </body>
        </html>
        """
        .formatted(
            language.getLanguage(),
            title,
            status.value(),
            title,
            HtmlUtils.htmlEscape(messages.getMessage(key + ".text", null, language)),
            HtmlUtils.htmlEscape(messages.getMessage("error.home", null, language)));
  }
}
