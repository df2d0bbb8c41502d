package towerledger.api;

import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RequestPart;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.multipart.MultipartFile;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.intake.ForeignTables;
import towerledger.intake.ForeignTables.Preview;
import towerledger.intake.ImportReceipt;
import towerledger.intake.ImportRequest;
import towerledger.intake.UploadFolder;
import towerledger.intake.UploadRefused;
import towerledger.intake.foreign.ForeignMapping;

/** Tables with columns of their own: previewed, mapped and taken. */
@RestController
@OpenTo(
    value = {Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER},
    need = OpenTo.Need.ENTER)
class ForeignTableController {

  private final ForeignTables tables;
  private final JsonMapper json;

  ForeignTableController(ForeignTables tables, JsonMapper json) {
    this.tables = tables;
    this.json = json;
  }

  /** What a table would become; takes nothing. */
  @PostMapping(
      path = "/api/v1/foreign-tables/preview",
      consumes = MediaType.MULTIPART_FORM_DATA_VALUE)
  Preview preview(
      Viewer viewer,
      Actor actor,
      @RequestPart("file") MultipartFile table,
      @RequestParam(name = "target", required = false) @Nullable String target,
      @RequestParam(name = "sender", required = false) @Nullable String sender,
      @RequestParam(name = "mapping", required = false) @Nullable String mapping)
      throws IOException {
    try (UploadFolder folder = UploadFolder.open()) {
      return tables.preview(
          ForeignTables.layDown(table.getInputStream(), folder.path()),
          target,
          sender,
          mapping(mapping),
          new ImportRequest(actor, viewer, origin(table)));
    }
  }

  /** Takes a table by a mapping given or remembered of the sender. */
  @PostMapping(path = "/api/v1/foreign-tables", consumes = MediaType.MULTIPART_FORM_DATA_VALUE)
  ImportReceipt take(
      Viewer viewer,
      Actor actor,
      @RequestPart("file") MultipartFile table,
      @RequestParam(name = "sender", required = false) @Nullable String sender,
      @RequestParam(name = "mapping", required = false) @Nullable String mapping)
      throws IOException {
    try (UploadFolder folder = UploadFolder.open()) {
      return tables.take(
          ForeignTables.layDown(table.getInputStream(), folder.path()),
          sender,
          mapping(mapping),
          new ImportRequest(actor, viewer, origin(table)));
    }
  }

  private static String origin(MultipartFile table) {
    return String.valueOf(table.getOriginalFilename());
  }

  private @Nullable ForeignMapping mapping(@Nullable String text) {
    if (text == null || text.isBlank()) {
      return null;
    }
    try {
      return json.readValue(text, ForeignMapping.class);
    } catch (JacksonException e) {
      Throwable cause = e.getCause();
      throw new FieldProblem(
          "'mapping' cannot be read: %s"
              .formatted(
                  cause instanceof IllegalArgumentException
                      ? cause.getMessage()
                      : e.getOriginalMessage()));
    }
  }

  @ExceptionHandler
  ProblemDetail refused(UploadRefused refusal) {
    return ImportController.problem(refusal);
  }
}
