package towerledger.api;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.http.HttpHeaders;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.Viewer;
import towerledger.intake.Export;

/** Hands out the whole ledger as a bundle, to the office only. */
@RestController
class ExportController {

  private final Export export;

  ExportController(Export export) {
    this.export = export;
  }

  @GetMapping(path = "/api/v1/export.zip", produces = "application/zip")
  void export(Viewer viewer, HttpServletResponse response) throws IOException {
    if (!viewer.isOffice()) {
      throw new AccessDeniedException("only the office takes the whole ledger out");
    }
    response.setContentType("application/zip");
    response.setHeader(
        HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"tower-water-ledger.zip\"");
    export.write(response.getOutputStream());
  }
}
