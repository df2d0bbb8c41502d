package towerledger.page;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Map;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;
import towerledger.account.OpenTo;
import towerledger.account.Role;

/**
 * What a person sees when something is not there, not theirs or has failed: a sentence and the way
 * back, nothing of the program's inside. A program below {@code /api} gets a problem detail.
 */
@Controller
class ErrorPage implements ErrorController {

  /**
   * What the page shows.
   *
   * @param status HTTP status
   * @param textKey key of the title and text in the messages, such as {@code error.404}
   */
  record View(int status, String textKey) {}

  @OpenTo(
      value = {Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER},
      need = OpenTo.Need.LOOK)
  @RequestMapping("/error")
  Object show(HttpServletRequest request, HttpServletResponse response) {
    HttpStatus status = status(request);
    String path = String.valueOf(request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI));
    boolean program = path.startsWith(request.getContextPath() + "/api/");
    // What the firewall refuses has passed no chain that could have set them.
    BareAnswer.guard(
        response, program ? BareAnswer.NOTHING_RUNS : BrowserSecurity.CONTENT_SECURITY_POLICY);
    if (program) {
      return ResponseEntity.status(status)
          .contentType(MediaType.APPLICATION_PROBLEM_JSON)
          .body(BareAnswer.problem(status, path));
    }
    return new ModelAndView(
        "error",
        Map.of("view", new View(status.value(), textKey(status, isForm(request)))),
        status);
  }

  private static HttpStatus status(HttpServletRequest request) {
    Object code = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE);
    HttpStatus status = code instanceof Integer number ? HttpStatus.resolve(number) : null;
    // Without a status somebody asked for /error itself, and there is no such page.
    return status == null
        ? code == null ? HttpStatus.NOT_FOUND : HttpStatus.INTERNAL_SERVER_ERROR
        : status;
  }

  /** Whether a form was refused: most often one that was open for too long. */
  private static boolean isForm(HttpServletRequest request) {
    Object method = request.getAttribute(RequestDispatcher.ERROR_METHOD);
    return !"GET".equals(method == null ? request.getMethod() : method);
  }

  static String textKey(HttpStatus status, boolean form) {
    return switch (status) {
      case FORBIDDEN -> form ? "error.403.form" : "error.403";
      case NOT_FOUND -> "error.404";
      case METHOD_NOT_ALLOWED -> "error.405";
      case CONTENT_TOO_LARGE -> "error.413";
      case TOO_MANY_REQUESTS -> "error.429";
      case SERVICE_UNAVAILABLE -> "error.503";
      case INSUFFICIENT_STORAGE -> "error.507";
      default -> status.is4xxClientError() ? "error.400" : "error.500";
    };
  }
}
