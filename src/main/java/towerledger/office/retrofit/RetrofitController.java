package towerledger.office.retrofit;

import java.time.Clock;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
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
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.drawing.Medium;
import towerledger.page.Plate;
import towerledger.report.content.PrintedPage;
import towerledger.site.CoolingSystem;
import towerledger.site.SiteAccess;

/** The business case of a retrofit, on a page and as a PDF to hand over. */
@Controller
class RetrofitController {

  private final SiteAccess access;
  private final RetrofitPage page;
  private final PrintedPage printed;
  private final Clock clock;

  RetrofitController(SiteAccess access, RetrofitPage page, PrintedPage printed, Clock clock) {
    this.access = access;
    this.page = page;
    this.printed = printed;
    this.clock = clock;
  }

  @GetMapping("/retrofit/{code}")
  String show(
      Viewer viewer,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute("view", page.compose(viewer, find(viewer, code), typed, Medium.PAGE, text));
    return "office/retrofit";
  }

  /** The same case for print; not there while a field is wrong or the record gives no answer. */
  @GetMapping("/retrofit/{code}/case.pdf")
  ResponseEntity<byte[]> print(
      Viewer viewer,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text) {
    CoolingSystem system = find(viewer, code);
    RetrofitView view = page.compose(viewer, system, typed, Medium.PAPER, text);
    Plate plate = view.plate();
    if (plate == null) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND);
    }
    Instant now = clock.instant();
    Map<String, Object> shown = new HashMap<>();
    shown.put("view", view);
    shown.put("language", text.locale().getLanguage());
    shown.put("chart", PrintedPage.described(plate.drawing()));
    byte[] pdf =
        printed.pdf(
            "report/retrofit", shown, text.locale(), viewer.units() == UnitPreference.US, now);
    return ResponseEntity.ok()
        .contentType(MediaType.APPLICATION_PDF)
        .header(
            HttpHeaders.CONTENT_DISPOSITION,
            ContentDisposition.inline()
                .filename("retrofit-%s-%s.pdf".formatted(system.code(), view.measure()))
                .build()
                .toString())
        .body(pdf);
  }

  private CoolingSystem find(Viewer viewer, String code) {
    return access
        .findSystem(viewer, code)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
