package towerledger.api;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.validation.FieldError;
import org.springframework.web.HttpMediaTypeNotSupportedException;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.MethodArgumentNotValidException;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.ServletWebRequest;
import org.springframework.web.context.request.WebRequest;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;
import org.springframework.web.multipart.MaxUploadSizeExceededException;
import org.springframework.web.multipart.MultipartException;
import org.springframework.web.multipart.support.MissingServletRequestPartException;
import org.springframework.web.servlet.mvc.method.annotation.ResponseEntityExceptionHandler;
import org.springframework.web.servlet.resource.NoResourceFoundException;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DatabindException;
import tools.jackson.databind.exc.InvalidFormatException;
import tools.jackson.databind.exc.UnrecognizedPropertyException;
import towerledger.account.AccountException;
import towerledger.quantity.OutOfRangeException;
import towerledger.site.MoveRefusedException;
import towerledger.site.UnknownCodeException;
import towerledger.tariff.TariffException;

/**
 * Answers every refusal and failure below {@code /api} as a problem detail (RFC 9457) that says
 * what is wrong and how to mend it, and never shows how the program is made.
 *
 * <p>Outside {@code /api} the exception is left to the error pages.
 */
@RestControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE)
class ApiProblems extends ResponseEntityExceptionHandler {

  private static final Logger LOG = LoggerFactory.getLogger(ApiProblems.class);

  /** A rule of the trade or of the ledger refuses what was sent. */
  @ExceptionHandler({
    AccountException.class,
    UnknownCodeException.class,
    MoveRefusedException.class,
    OutOfRangeException.class,
    TariffException.class
  })
  @Nullable ResponseEntity<Object> refused(RuntimeException refusal, WebRequest request) {
    return problem(refusal, HttpStatus.UNPROCESSABLE_CONTENT, refusal.getMessage(), request);
  }

  /** The thing asked for is not there, or not for this viewer: both read the same. */
  @ExceptionHandler(NotThereException.class)
  @Nullable ResponseEntity<Object> notThere(NotThereException absent, WebRequest request) {
    return problem(absent, HttpStatus.NOT_FOUND, absent.getMessage(), request);
  }

  /** A free-form body lacks a field, doubles one or has one that is not known. */
  @ExceptionHandler(FieldProblem.class)
  @Nullable ResponseEntity<Object> wrongFields(FieldProblem wrong, WebRequest request) {
    return problem(wrong, HttpStatus.BAD_REQUEST, wrong.getMessage(), request);
  }

  @ExceptionHandler(MethodArgumentTypeMismatchException.class)
  @Nullable ResponseEntity<Object> wrongType(
      MethodArgumentTypeMismatchException mismatch, WebRequest request) {
    Class<?> type = mismatch.getRequiredType();
    return problem(
        mismatch,
        HttpStatus.BAD_REQUEST,
        "'%s' is no %s as parameter '%s' needs it."
            .formatted(
                shortened(String.valueOf(mismatch.getValue())),
                type == null ? "value" : readable(type),
                mismatch.getName()),
        request);
  }

  @ExceptionHandler(MultipartException.class)
  @Nullable ResponseEntity<Object> brokenUpload(MultipartException broken, WebRequest request) {
    return problem(
        broken,
        HttpStatus.BAD_REQUEST,
        "The upload could not be read to its end. Send it again as multipart/form-data.",
        request);
  }

  /** Who may do what is answered by the security chain. */
  @ExceptionHandler({AccessDeniedException.class, AuthenticationException.class})
  void leaveToSecurity(RuntimeException refusal) {
    throw refusal;
  }

  /** A fault of this program: logged in full, told in one sentence. */
  @ExceptionHandler(Exception.class)
  @Nullable ResponseEntity<Object> fault(Exception fault, WebRequest request) throws Exception {
    leaveToPages(fault, request);
    LOG.error("{} failed", path(request), fault);
    return problem(
        fault,
        HttpStatus.INTERNAL_SERVER_ERROR,
        "The ledger failed at this request; nothing of it was kept. The cause is in its log.",
        request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleHttpMessageNotReadable(
      HttpMessageNotReadableException unreadable,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    return problem(unreadable, HttpStatus.BAD_REQUEST, jsonFault(unreadable), request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleMissingServletRequestParameter(
      MissingServletRequestParameterException missing,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    return problem(
        missing,
        HttpStatus.BAD_REQUEST,
        "Parameter '%s' is missing.".formatted(missing.getParameterName()),
        request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleMissingServletRequestPart(
      MissingServletRequestPartException missing,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    return problem(
        missing,
        HttpStatus.BAD_REQUEST,
        "Form field '%s' is missing; send it as multipart/form-data."
            .formatted(missing.getRequestPartName()),
        request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleMethodArgumentNotValid(
      MethodArgumentNotValidException invalid,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    String detail =
        invalid.getBindingResult().getAllErrors().stream()
            .map(
                error ->
                    error instanceof FieldError field
                        ? "'%s' %s".formatted(field.getField(), field.getDefaultMessage())
                        : String.valueOf(error.getDefaultMessage()))
            .collect(Collectors.joining("; "));
    return problem(invalid, HttpStatus.UNPROCESSABLE_CONTENT, detail + ".", request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleNoResourceFoundException(
      NoResourceFoundException absent,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    return problem(
        absent,
        HttpStatus.NOT_FOUND,
        "There is nothing at %s. /v3/api-docs lists what there is.".formatted(path(request)),
        request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleHttpRequestMethodNotSupported(
      HttpRequestMethodNotSupportedException wrong,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    String[] supported = wrong.getSupportedMethods();
    return handleExceptionInternal(
        wrong,
        ProblemDetail.forStatusAndDetail(
            status,
            "%s is not taken at %s%s."
                .formatted(
                    wrong.getMethod(),
                    path(request),
                    supported == null ? "" : "; use " + String.join(" or ", supported))),
        headers,
        status,
        request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleHttpMediaTypeNotSupported(
      HttpMediaTypeNotSupportedException wrong,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    return handleExceptionInternal(
        wrong,
        ProblemDetail.forStatusAndDetail(
            status,
            "A body of type %s is not taken at %s; use %s."
                .formatted(
                    wrong.getContentType() == null ? "(none given)" : wrong.getContentType(),
                    path(request),
                    wrong.getSupportedMediaTypes())),
        headers,
        status,
        request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleMaxUploadSizeExceededException(
      MaxUploadSizeExceededException tooLarge,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    return problem(
        tooLarge,
        HttpStatus.CONTENT_TOO_LARGE,
        "The upload is larger than this ledger takes at once; split it into several.",
        request);
  }

  @Override
  protected @Nullable ResponseEntity<Object> handleExceptionInternal(
      Exception exception,
      @Nullable Object body,
      HttpHeaders headers,
      HttpStatusCode status,
      WebRequest request) {
    leaveToPages(exception, request);
    return super.handleExceptionInternal(exception, body, headers, status, request);
  }

  private @Nullable ResponseEntity<Object> problem(
      Exception exception, HttpStatus status, @Nullable String detail, WebRequest request) {
    return handleExceptionInternal(
        exception,
        ProblemDetail.forStatusAndDetail(status, detail),
        new HttpHeaders(),
        status,
        request);
  }

  private static String jsonFault(HttpMessageNotReadableException unreadable) {
    Throwable cause = unreadable.getCause();
    if (cause instanceof UnrecognizedPropertyException unknown) {
      Collection<Object> known = unknown.getKnownPropertyIds();
      return "Field '%s' is not known here%s."
          .formatted(
              shortened(where(unknown)),
              known == null || known.isEmpty()
                  ? ""
                  : "; there are "
                      + known.stream()
                          .map(String::valueOf)
                          .sorted()
                          .collect(Collectors.joining(", ")));
    }
    if (cause instanceof InvalidFormatException wrong) {
      return "'%s' is no %s as field '%s' needs it."
          .formatted(
              shortened(String.valueOf(wrong.getValue())),
              readable(wrong.getTargetType()),
              shortened(where(wrong)));
    }
    if (cause instanceof DatabindException fault) {
      Throwable refusal = fault.getCause();
      return refusal instanceof RuntimeException
              && refusal.getClass().getName().startsWith("towerledger")
          ? String.valueOf(refusal.getMessage())
          : "Field '%s' does not have the form that is needed.".formatted(shortened(where(fault)));
    }
    if (cause instanceof JacksonException broken && broken.getLocation() != null) {
      return "The body is no well-formed JSON: look at line %d, column %d."
          .formatted(broken.getLocation().getLineNr(), broken.getLocation().getColumnNr());
    }
    return "The body is missing or cannot be read.";
  }

  private static String where(DatabindException fault) {
    return fault.getPath().stream()
        .map(
            step ->
                step.getPropertyName() == null
                    ? "[" + step.getIndex() + "]"
                    : step.getPropertyName())
        .collect(Collectors.joining("."))
        .replace(".[", "[");
  }

  private static String readable(Class<?> type) {
    if (type.isEnum()) {
      return "one of "
          + List.of(Objects.requireNonNull(type.getEnumConstants())).stream()
              .map(String::valueOf)
              .collect(Collectors.joining(", "));
    }
    return switch (type.getSimpleName()) {
      case "YearMonth" -> "month such as 2026-03";
      case "LocalDate" -> "day such as 2026-03-31";
      case "Instant", "OffsetDateTime" -> "instant such as 2026-03-31T14:00:00Z";
      case "int", "Integer", "long", "Long" -> "whole number";
      case "double", "Double", "BigDecimal" -> "number";
      case "boolean", "Boolean" -> "true or false";
      default -> "value";
    };
  }

  private static String shortened(String value) {
    return value.length() <= 80 ? value : value.substring(0, 80) + "…";
  }

  private static String path(WebRequest request) {
    return request instanceof ServletWebRequest web ? web.getRequest().getRequestURI() : "";
  }

  /** Rethrown as it came, the exception goes on to the next resolver: the pages' own. */
  private static void leaveToPages(Exception exception, WebRequest request) {
    if (!isApi(request)) {
      ApiProblems.<RuntimeException>rethrow(exception);
    }
  }

  private static boolean isApi(WebRequest request) {
    if (request instanceof ServletWebRequest web) {
      HttpServletRequest http = web.getRequest();
      return http.getRequestURI().startsWith(http.getContextPath() + "/api/");
    }
    return false;
  }

  @SuppressWarnings("unchecked")
  private static <E extends Exception> void rethrow(Exception exception) throws E {
    throw (E) exception;
  }
}
