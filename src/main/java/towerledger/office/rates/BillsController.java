package towerledger.office.rates;

import static java.time.temporal.ChronoUnit.DAYS;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
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
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.SiteBills;
import towerledger.office.rates.FiveYearsText.Yearly;
import towerledger.quantity.Money;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.tariff.Claim;
import towerledger.tariff.Projection;
import towerledger.tariff.Schedules;
import towerledger.tariff.Service;
import towerledger.tariff.UtilityBill;
import towerledger.wording.Words;

/** A site's utility bills checked, what of the sewer credit is unclaimed, and five years of it. */
@Controller
class BillsController {

  /** A year of bills may be some days short of one: meters are not read to the day. */
  private static final int DAYS_OF_A_YEAR = 355;

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
                            billed(checked, currency),
                            wasted(viewer, site, currency),
                            unclaimed(claims, currency)),
                        risen(site, claims))));
    return "office/bills";
  }

  /** All bills of the newest year of bills. */
  private static Yearly billed(List<SiteBills.Checked> checked, Currency currency) {
    List<UtilityBill> all = checked.stream().map(SiteBills.Checked::bill).toList();
    LocalDate newest =
        all.stream()
            .map(UtilityBill::to)
            .max(Comparator.naturalOrder())
            .orElse(SiteBills.FIRST_DAY);
    List<UtilityBill> year =
        all.stream()
            .filter(bill -> !bill.from().isBefore(newest.minusYears(1)) && bill.amount() != null)
            .toList();
    Map<Service, Long> days =
        year.stream()
            .collect(
                Collectors.groupingBy(
                    UtilityBill::service,
                    Collectors.summingLong(bill -> DAYS.between(bill.from(), bill.to()))));
    return new Yearly(
        "bills",
        year.stream()
            .map(UtilityBill::amount)
            .filter(Objects::nonNull)
            .map(amount -> Money.of(amount, currency))
            .reduce(Money.zero(currency), Money::plus),
        days.values().stream().allMatch(known -> known >= DAYS_OF_A_YEAR));
  }

  /** What the ledger prices as wasted in the newest twelve months. */
  private Yearly wasted(Viewer viewer, Site site, Currency currency) {
    List<LedgerEntry> rows =
        ledger.findNewestEnded(viewer).stream()
            .flatMap(
                newest ->
                    sites.listSystems(site).stream()
                        .flatMap(
                            system -> ledger.list(system, newest.minusMonths(11), newest).stream()))
            .toList();
    return new Yearly(
        "waste",
        rows.stream()
            .filter(row -> row.verdict().waste() && row.money().currency().equals(currency))
            .map(row -> row.money().lossAmount())
            .filter(Objects::nonNull)
            .map(amount -> Money.of(amount, currency))
            .reduce(Money.zero(currency), Money::plus),
        rows.stream().map(LedgerEntry::month).distinct().count() == 12);
  }

  /** What the newest year of sewer bills left unclaimed. */
  private static Yearly unclaimed(List<Claim> newestFirst, Currency currency) {
    if (newestFirst.isEmpty()) {
      return new Yearly("credit", Money.zero(currency), true);
    }
    LocalDate yearBefore = newestFirst.get(0).use().endExclusive().minusYears(1);
    List<Claim> year =
        newestFirst.stream()
            .filter(claim -> !claim.use().startInclusive().isBefore(yearBefore))
            .toList();
    return new Yearly(
        "credit",
        year.stream().map(Claim::unclaimed).reduce(Money.zero(currency), Money::plus),
        year.stream()
                .mapToLong(
                    claim -> DAYS.between(claim.use().startInclusive(), claim.use().endExclusive()))
                .sum()
            >= DAYS_OF_A_YEAR);
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
