package towerledger.office.rates;

import java.time.LocalDate;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.ledger.SiteBills;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.tariff.Schedules;
import towerledger.wording.Words;

/** A site's utility bills checked, and the claims for its sewer credit, to be printed. */
@Controller
class BillsController {

  private static final LocalDate FIRST_DAY = LocalDate.of(1990, 1, 1);
  private static final LocalDate LAST_DAY = LocalDate.of(2200, 1, 1);

  private final SiteAccess access;
  private final SiteBills bills;
  private final Schedules schedules;
  private final MessageSource messages;

  BillsController(SiteAccess access, SiteBills bills, Schedules schedules, MessageSource messages) {
    this.access = access;
    this.bills = bills;
    this.schedules = schedules;
    this.messages = messages;
  }

  @GetMapping("/sites/{code}/bills")
  String show(
      Viewer viewer,
      @PathVariable String code,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Site site =
        access
            .findSite(viewer, code)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    model.addAttribute(
        "view",
        new BillsText(new Words(messages, text.locale()), text)
            .view(
                site,
                bills.listChecks(site, FIRST_DAY, LAST_DAY),
                bills.listClaims(site, FIRST_DAY, LAST_DAY),
                site.details().sewerSchedule() == null
                    ? java.util.Optional.empty()
                    : schedules.find(site.details().sewerSchedule())));
    return "office/bills";
  }
}
