package towerledger.office;

import java.time.YearMonth;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.page.MonthParameter;
import towerledger.site.CoolingSystem;
import towerledger.site.SiteAccess;

/** The page of one system, and the working behind its figures. */
@Controller
class SystemController {

  private final SiteAccess access;
  private final SystemPage page;
  private final WorkingPage working;

  SystemController(SiteAccess access, SystemPage page, WorkingPage working) {
    this.access = access;
    this.page = page;
    this.working = working;
  }

  @GetMapping("/systems/{code}")
  String show(
      Viewer viewer,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String month,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute(
        "view",
        page.find(viewer, code, month == null ? null : month(month), text)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND)));
    return "office/system";
  }

  @GetMapping("/systems/{code}/working/{month}")
  String showWorking(
      Viewer viewer,
      @PathVariable String code,
      @PathVariable String month,
      @RequestParam(required = false) @Nullable Integer revision,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    CoolingSystem system = find(viewer, code);
    model.addAttribute(
        "view",
        working
            .compose(viewer, system, month(month), revision, text)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND)));
    return "office/working";
  }

  private CoolingSystem find(Viewer viewer, String code) {
    return access
        .findSystem(viewer, code)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }

  private static YearMonth month(String text) {
    return MonthParameter.find(text)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
