package towerledger.portal;

import java.nio.charset.StandardCharsets;
import java.time.ZoneOffset;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.report.PastReports;
import towerledger.report.ReportCopy;

/** The monthly reports a customer was sent, to read again. */
@Controller
class PastReportsController {

  private static final String ONE = "/portal/reports/{id:[0-9]{1,18}}";

  private final PastReports reports;

  PastReportsController(PastReports reports) {
    this.reports = reports;
  }

  @GetMapping("/portal/reports")
  String list(Viewer viewer, @ModelAttribute("figureText") FigureText text, Model model) {
    model.addAttribute(
        "view",
        new PortalView.Reports(
            reports.list(viewer).stream()
                .map(
                    report ->
                        new PortalView.ReportLine(
                            report.id(),
                            text.month(report.month()),
                            report.subject(),
                            report.language(),
                            text.day(report.decidedAt().atZone(ZoneOffset.UTC).toLocalDate()),
                            report.edition() > 1))
                .toList()));
    return "portal/reports";
  }

  @GetMapping(ONE + "/report.pdf")
  ResponseEntity<byte[]> pdf(Viewer viewer, @PathVariable long id) {
    return file(viewer, id, MediaType.APPLICATION_PDF, "pdf", copyOf(viewer, id).pdf());
  }

  @GetMapping(ONE + "/figures.csv")
  ResponseEntity<byte[]> csv(Viewer viewer, @PathVariable long id) {
    return file(
        viewer,
        id,
        new MediaType("text", "csv", StandardCharsets.UTF_8),
        "csv",
        copyOf(viewer, id).csv().getBytes(StandardCharsets.UTF_8));
  }

  private ReportCopy copyOf(Viewer viewer, long id) {
    return reports
        .findCopy(viewer, id)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }

  private ResponseEntity<byte[]> file(
      Viewer viewer, long id, MediaType type, String ending, byte[] content) {
    String name = "water-%s.%s".formatted(reports.find(viewer, id).orElseThrow().month(), ending);
    return ResponseEntity.ok()
        .contentType(type)
        .header(
            HttpHeaders.CONTENT_DISPOSITION,
            ContentDisposition.attachment().filename(name).build().toString())
        .body(content);
  }
}
