package towerledger.office.rates;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import java.util.Objects;
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
import towerledger.account.Customers;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.ledger.SiteBills;
import towerledger.office.rates.FiveYearsText.Yearly;
import towerledger.quantity.Money;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.tariff.Claim;
import towerledger.tariff.Projection;
import towerledger.tariff.Schedules;
import towerledger.tariff.UtilityBill;
import towerledger.wording.Words;

/** A site's utility bills checked, what of the sewer credit is unclaimed, and five years of it. */
@Controller
class BillsController {

  private final SiteAccess access;
  private final Sites sites;
  private final Customers customers;
  private final SiteBills bills;
  private final Schedules schedules;
  private final Ledger ledger;
  private final MessageSource messages;

  BillsController(
      SiteAccess access,
      Sites sites,
      Customers customers,
      SiteBills bills,
      Schedules schedules,
      Ledger ledger,
      MessageSource messages) {
    this.access = access;
    this.sites = sites;
    this.customers = customers;
    this.bills = bills;
    this.schedules = schedules;
    this.ledger = ledger;
    this.messages = messages;
  }

  @GetMapping("/sites/{code}/bills")
  String show(
      Viewer viewer,
      @PathVariable String code,
      @RequestParam(required = false) @Nullable String rise,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Site site =
        access
            .findSite(viewer, code)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    Words words = new Words(messages, text.locale());
    List<SiteBills.Checked> checked =
        bills.listChecks(site, SiteBills.FIRST_DAY, SiteBills.LAST_DAY);
    List<SiteBills.Claimed> claimed =
        bills.listClaims(site, SiteBills.FIRST_DAY, SiteBills.LAST_DAY);
    List<Claim> claims = BillsText.claims(claimed);
    Currency currency = customers.get(site.customerId()).currency();
    model.addAttribute(
        "view",
        new BillsText(words, text, currency)
            .view(
                site,
                checked,
                claimed,
                new FiveYearsText(words, text, rise)
                    .view(
                        List.of(
                            new Yearly("bills", billed(checked, currency)),
                            new Yearly("waste", wasted(viewer, site, currency)),
                            new Yearly("credit", unclaimed(claims, currency))),
                        risen(site, claims))));
    return "office/bills";
  }

  /** All bills of the newest year of bills. */
  private static Money billed(List<SiteBills.Checked> checked, Currency currency) {
    List<UtilityBill> all = checked.stream().map(SiteBills.Checked::bill).toList();
    LocalDate newest =
        all.stream()
            .map(UtilityBill::to)
            .max(Comparator.naturalOrder())
            .orElse(SiteBills.FIRST_DAY);
    return all.stream()
        .filter(bill -> !bill.from().isBefore(newest.minusYears(1)))
        .map(UtilityBill::amount)
        .filter(Objects::nonNull)
        .map(amount -> Money.of(amount, currency))
        .reduce(Money.zero(currency), Money::plus);
  }

  /** What the ledger prices as wasted in the newest twelve months. */
  private Money wasted(Viewer viewer, Site site, Currency currency) {
    Optional<YearMonth> newest = ledger.findNewestEnded(viewer);
    if (newest.isEmpty()) {
      return Money.zero(currency);
    }
    return sites.listSystems(site).stream()
        .flatMap(system -> ledger.list(system, newest.get().minusMonths(11), newest.get()).stream())
        .filter(row -> row.verdict().waste() && row.money().currency().equals(currency))
        .map(row -> row.money().lossAmount())
        .filter(Objects::nonNull)
        .map(amount -> Money.of(amount, currency))
        .reduce(Money.zero(currency), Money::plus);
  }

  /** What the newest year of sewer bills left unclaimed. */
  private static Money unclaimed(List<Claim> newestFirst, Currency currency) {
    if (newestFirst.isEmpty()) {
      return Money.zero(currency);
    }
    LocalDate yearBefore = newestFirst.get(0).use().endExclusive().minusYears(1);
    return newestFirst.stream()
        .filter(claim -> !claim.use().startInclusive().isBefore(yearBefore))
        .map(Claim::unclaimed)
        .reduce(Money.zero(currency), Money::plus);
  }

  /** The yearly rise that the site's sewer schedule has shown. */
  private Optional<Projection.Scenario> risen(Site site, List<Claim> claims) {
    String schedule = site.details().sewerSchedule();
    return schedule == null || claims.isEmpty()
        ? Optional.empty()
        : schedules
            .find(schedule)
            .flatMap(
                rates ->
                    Projection.asInThePast(
                        rates, claims.get(0).use(), claims.get(0).due().currency()));
  }
}
