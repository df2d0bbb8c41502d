package towerledger.office.credits;

import java.time.Year;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
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
import towerledger.ledger.Ledger;
import towerledger.ledger.SiteYears;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.wording.MoneyText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Credits a year and site, and the claim to print. */
@Controller
class CreditController {

  private static final int ROWS = 50;

  private final Ledger ledger;
  private final SiteYears years;
  private final ClaimPage claim;
  private final SiteAccess access;
  private final MessageSource messages;

  CreditController(
      Ledger ledger, SiteYears years, ClaimPage claim, SiteAccess access, MessageSource messages) {
    this.ledger = ledger;
    this.years = years;
    this.claim = claim;
    this.access = access;
    this.messages = messages;
  }

  @GetMapping("/credits")
  String year(
      Viewer viewer,
      @RequestParam(required = false) @Nullable Integer year,
      @RequestParam(defaultValue = "0") int offset,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Words words = new Words(messages, text.locale());
    Optional<Ledger.Reach> reach = ledger.findReach(viewer);
    int newest = reach.map(within -> within.newest().getYear()).orElse(Year.MAX_VALUE);
    int shown = year != null ? year : newest;
    if (shown < Ledger.FIRST_MONTH.getYear() || shown > 2200) {
      model.addAttribute(
          "view",
          new CreditViews.Year(
              0, words.of("credits.lead.none"), null, null, List.of(), null, null));
      return "office/credits";
    }
    int from = Math.max(0, offset);
    List<SiteYears.SiteYear> found = years.list(viewer, shown, from, ROWS + 1);
    List<CreditViews.Row> rows =
        found.stream().limit(ROWS).map(site -> row(site, words, text)).toList();
    long owed =
        found.stream()
            .limit(ROWS)
            .filter(site -> site.unclaimed() != null && site.unclaimed().signum() > 0)
            .count();
    model.addAttribute(
        "view",
        new CreditViews.Year(
            shown,
            words.of("credits.lead", String.valueOf(shown), owed),
            reach.flatMap(within -> within.yearBefore(shown)).orElse(null),
            reach.flatMap(within -> within.yearAfter(shown)).orElse(null),
            rows,
            from > 0 ? address(shown, Math.max(0, from - ROWS)) : null,
            found.size() > ROWS ? address(shown, from + ROWS) : null));
    return "office/credits";
  }

  private static String address(int year, int offset) {
    return "/credits?year=" + year + "&offset=" + offset;
  }

  private static CreditViews.Row row(SiteYears.SiteYear site, Words words, FigureText text) {
    return new CreditViews.Row(
        site.site(),
        site.name(),
        site.customer(),
        new WaterText(words, text).evaporated(site),
        MoneyText.credit(site.due(), site.currency(), text, words),
        MoneyText.amount(site.credited(), site.currency(), text, words),
        MoneyText.credit(site.unclaimed(), site.currency(), text, words));
  }

  @GetMapping("/credits/{site}/{year}")
  String claim(
      Viewer viewer,
      @PathVariable("site") String code,
      @PathVariable int year,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Site site =
        access
            .findSite(viewer, code)
            .filter(found -> year >= Ledger.FIRST_MONTH.getYear() && year <= 2200)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    Optional<Ledger.Reach> reach = ledger.findReach(viewer);
    model.addAttribute("view", claim.of(site, year, text));
    model.addAttribute("earlier", reach.flatMap(within -> within.yearBefore(year)).orElse(null));
    model.addAttribute("later", reach.flatMap(within -> within.yearAfter(year)).orElse(null));
    return "office/claim";
  }
}
