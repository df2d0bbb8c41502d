package towerledger.portal;

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

/** What a customer reads of their own sites. */
@Controller
class PortalController {

  private final SiteAccess access;
  private final MonthPage months;
  private final SystemSheet systems;
  private final CreditsPage credits;

  PortalController(SiteAccess access, MonthPage months, SystemSheet systems, CreditsPage credits) {
    this.access = access;
    this.months = months;
    this.systems = systems;
    this.credits = credits;
  }

  @GetMapping("/portal")
  String month(
      Viewer viewer,
      @RequestParam(required = false) @Nullable String month,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute("view", months.compose(viewer, parse(month), text));
    return "portal/month";
  }

  @GetMapping("/portal/systems/{code}")
  String system(
      Viewer viewer,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String month,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    CoolingSystem system =
        access
            .findSystem(viewer, code)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    model.addAttribute("view", systems.compose(viewer, system, parse(month), text));
    return "portal/system";
  }

  @GetMapping("/portal/credits")
  String credits(
      Viewer viewer,
      @RequestParam(required = false) @Nullable String year,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    if (year != null && !year.matches("(19|20)[0-9]{2}")) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND);
    }
    model.addAttribute(
        "view", credits.compose(viewer, year == null ? null : Integer.valueOf(year), text));
    return "portal/credits";
  }

  private static @Nullable YearMonth parse(@Nullable String month) {
    return month == null
        ? null
        : MonthParameter.find(month)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
