package towerledger.office.credits;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
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
import towerledger.ledger.SiteBills;
import towerledger.page.FigureTable;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.tariff.Claim;
import towerledger.tariff.CreditRule;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Credits a year and site, and the claim to print. */
@Controller
class CreditController {

  private static final int ROWS = 50;

  private final CreditSums sums;
  private final SiteBills bills;
  private final SiteAccess access;
  private final MessageSource messages;

  CreditController(CreditSums sums, SiteBills bills, SiteAccess access, MessageSource messages) {
    this.sums = sums;
    this.bills = bills;
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
    int shown = year != null ? year : sums.findNewestYear(viewer).orElse(java.time.Year.MAX_VALUE);
    if (shown < Ledger.FIRST_MONTH.getYear() || shown > 2200) {
      model.addAttribute(
          "view", new CreditViews.Year(0, words.of("credits.lead.none"), List.of(), null, null));
      return "office/credits";
    }
    int from = Math.max(0, offset);
    List<CreditSums.SiteYear> found = sums.list(viewer, shown, from, ROWS + 1);
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
            rows,
            from > 0 ? address(shown, Math.max(0, from - ROWS)) : null,
            found.size() > ROWS ? address(shown, from + ROWS) : null));
    return "office/credits";
  }

  private static String address(int year, int offset) {
    return "/credits?year=" + year + "&offset=" + offset;
  }

  private static CreditViews.Row row(CreditSums.SiteYear site, Words words, FigureText text) {
    return new CreditViews.Row(
        site.site(),
        site.name(),
        site.customer(),
        site.litres() == 0
            ? words.of("figure.unknown")
            : text.volume(Volume.ofLitres(site.litres())),
        amount(site, site.due(), words, text),
        amount(site, site.credited(), words, text),
        amount(site, site.unclaimed(), words, text));
  }

  private static String amount(
      CreditSums.SiteYear site, @Nullable BigDecimal amount, Words words, FigureText text) {
    return amount == null
        ? words.of("figure.unknown")
        : text.money(new Money(amount, site.currency()));
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
    Words words = new Words(messages, text.locale());
    List<Claim> all = new ArrayList<>();
    Set<String> trouble = new LinkedHashSet<>();
    LocalDate first = LocalDate.of(year, 1, 1);
    if (site.details().sewerSchedule() == null) {
      trouble.add(words.of("credits.no-schedule"));
    }
    for (SiteBills.Claimed claimed : bills.listClaims(site, first, first.plusYears(1))) {
      if (claimed.bill().from().getYear() == year) {
        Claim claim = claimed.claim();
        if (claim != null) {
          all.add(claim);
        }
        trouble.addAll(claimed.notes());
      }
    }
    if (all.isEmpty() && trouble.isEmpty()) {
      trouble.add(words.of("credits.no-bills"));
    }
    model.addAttribute(
        "view",
        new CreditViews.Claims(
            site.code(),
            site.details().name(),
            year,
            lead(site, year, all, words, text),
            all.isEmpty() ? "" : rule(all.get(0).rule(), words, text),
            all.isEmpty() ? "" : all.get(0).rule().deadline(),
            table(all, words, text),
            all.stream().map(claim -> period(claim, words, text)).toList(),
            List.copyOf(trouble)));
    return "office/claim";
  }

  private static String lead(Site site, int year, List<Claim> all, Words words, FigureText text) {
    if (all.isEmpty()) {
      return words.of("credits.claim.none", site.details().name(), String.valueOf(year));
    }
    Money unclaimed = Money.zero(all.get(0).unclaimed().currency());
    double litres = 0;
    for (Claim claim : all) {
      unclaimed = unclaimed.plus(claim.unclaimed());
      litres += claim.volume().litres();
    }
    return words.of(
        "credits.claim.lead",
        site.details().name(),
        String.valueOf(year),
        text.volume(Volume.ofLitres(litres)),
        text.exactMoney(unclaimed));
  }

  private static FigureTable table(List<Claim> all, Words words, FigureText text) {
    List<List<String>> rows = new ArrayList<>();
    for (Claim claim : all) {
      Money credited = claim.claimed();
      rows.add(
          List.of(
              title(claim, words, text),
              text.volume(claim.volume()),
              text.exactMoney(claim.due()),
              credited == null ? words.of("figure.unknown") : text.exactMoney(credited),
              text.exactMoney(claim.unclaimed())));
    }
    return new FigureTable(
        List.of(
            words.of("credits.period"),
            words.of("credits.volume"),
            words.of("credits.due"),
            words.of("credits.credited"),
            words.of("credits.unclaimed")),
        rows);
  }

  private static String rule(CreditRule rule, Words words, FigureText text) {
    String method = words.of("rates.credit." + rule.method().code());
    return rule.share() == null ? method : text.percent(rule.share().doubleValue()) + " " + method;
  }

  private static String title(Claim claim, Words words, FigureText text) {
    return words.of(
        "finding.months",
        text.day(claim.use().startInclusive()),
        text.day(claim.use().endExclusive().minusDays(1)));
  }

  private static CreditViews.Period period(Claim claim, Words words, FigureText text) {
    ReasonText reasons = new ReasonText(words, text);
    return new CreditViews.Period(
        title(claim, words, text),
        claim.working(),
        new FigureTable(
            List.of(
                words.of("equipment.meter"), words.of("credits.reading"), words.of("finding.when")),
            claim.evidence().stream()
                .map(read -> List.of(read.source(), reasons.say(read.reading()), read.when()))
                .toList()),
        reasons.say(claim.disclosures()));
  }
}
