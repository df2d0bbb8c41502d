package towerledger.office.report;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.server.ResponseStatusException;
import towerledger.report.ReportCopy;
import towerledger.report.ReportException;
import towerledger.report.Reports;

/** The forms of a report as they are sent, for whoever approves it. */
@RestController
@RequestMapping("/reports/{id:[0-9]{1,18}}")
class ReportFilesController {

  /**
   * A mail brings its own styles and picture; it runs nothing, loads nothing and sends no form. In
   * its sandbox it has no origin, so that the picture has to be inside it.
   */
  private static final String MAIL_POLICY =
      "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none';"
          + " form-action 'none'; frame-ancestors 'self'; sandbox allow-popups";

  private final Reports reports;

  ReportFilesController(Reports reports) {
    this.reports = reports;
  }

  /** The mail as it arrives, but for the recipient's own address and link. */
  @GetMapping("/mail")
  ResponseEntity<String> mail(@PathVariable long id) {
    ReportCopy copy = copy(id);
    String html =
        copy.html()
            .replace(
                ReportCopy.PICTURE,
                "data:image/png;base64," + Base64.getEncoder().encodeToString(copy.picture()))
            .replace("href=\"" + ReportCopy.LEAVE + "\"", "href=\"#\"")
            .replace(ReportCopy.RECIPIENT, "recipient@example.com");
    return ResponseEntity.ok()
        .header("Content-Security-Policy", MAIL_POLICY)
        .contentType(new MediaType(MediaType.TEXT_HTML, StandardCharsets.UTF_8))
        .body(html);
  }

  @GetMapping("/plain.txt")
  ResponseEntity<String> plain(@PathVariable long id) {
    return ResponseEntity.ok()
        .contentType(new MediaType(MediaType.TEXT_PLAIN, StandardCharsets.UTF_8))
        .body(copy(id).plain());
  }

  @GetMapping("/report.pdf")
  ResponseEntity<byte[]> pdf(@PathVariable long id) {
    return ResponseEntity.ok().contentType(MediaType.APPLICATION_PDF).body(copy(id).pdf());
  }

  @GetMapping("/figures.csv")
  ResponseEntity<byte[]> csv(@PathVariable long id) {
    return ResponseEntity.ok()
        .header(
            HttpHeaders.CONTENT_DISPOSITION,
            ContentDisposition.attachment().filename("figures.csv").build().toString())
        .contentType(new MediaType("text", "csv", StandardCharsets.UTF_8))
        .body(copy(id).csv().getBytes(StandardCharsets.UTF_8));
  }

  private ReportCopy copy(long id) {
    try {
      return reports.getCopy(id);
    } catch (ReportException e) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND, "no report " + id, e);
    }
  }
}
