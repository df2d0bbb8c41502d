package towerledger.api;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.ledger.SiteBills;
import towerledger.quantity.Money;
import towerledger.quantity.VolumeUnit;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.tariff.BillCheck;
import towerledger.tariff.Claim;
import towerledger.tariff.UtilityBill;

/** Utility bills checked, and the sewer credits to claim on them. */
@RestController
@OpenTo({Role.OFFICE, Role.CUSTOMER})
class SiteBillsController {

  private final SiteAccess access;
  private final SiteBills bills;

  SiteBillsController(SiteAccess access, SiteBills bills) {
    this.access = access;
    this.bills = bills;
  }

  /** A likely explanation, with its kind as a code. */
  record Reason(String kind, String text) {}

  /**
   * A bill held against meter and schedule; what is not known is absent.
   *
   * @param unit billing unit of the schedule
   * @param billedUnits units of the bill
   * @param meteredUnits units by the site's own readings
   * @param usageGap billed minus metered units
   * @param billedAmount amount of the bill
   * @param expectedAmount the billed units at the schedule's rates, before any credit
   * @param amountGap billed minus expected amount, the credit given taken off
   * @param creditGiven credit on the bill
   * @param creditDue credit the utility's rule gives
   * @param reasons likely explanations, the weightiest first
   * @param lines lines of the expected bill with their working
   * @param notes what limits the check
   */
  record CheckAnswer(
      String service,
      LocalDate from,
      LocalDate to,
      @Nullable Boolean estimated,
      @Nullable String unit,
      @JsonProperty("billed_units") @Nullable BigDecimal billedUnits,
      @JsonProperty("metered_units") @Nullable BigDecimal meteredUnits,
      @JsonProperty("usage_gap") @Nullable BigDecimal usageGap,
      @JsonProperty("billed_amount") @Nullable BigDecimal billedAmount,
      @JsonProperty("expected_amount") @Nullable BigDecimal expectedAmount,
      @JsonProperty("amount_gap") @Nullable BigDecimal amountGap,
      @JsonProperty("credit_given") @Nullable BigDecimal creditGiven,
      @JsonProperty("credit_due") @Nullable BigDecimal creditDue,
      List<Reason> reasons,
      List<String> lines,
      List<String> notes) {}

  /** Each utility bill of a site held against its meter readings and its rate schedule. */
  @GetMapping("/api/v1/sites/{code}/bill-check")
  List<CheckAnswer> check(
      Viewer viewer,
      @PathVariable("code") String code,
      @RequestParam(name = "from", required = false) @Nullable String from,
      @RequestParam(name = "to", required = false) @Nullable String to) {
    return bills.listChecks(get(viewer, code), first(from), end(to)).stream()
        .map(SiteBillsController::answer)
        .toList();
  }

  /**
   * A reading or sample behind a claim.
   *
   * @param source meter, logbook or model
   * @param reading what was read
   * @param when when
   */
  record EvidenceAnswer(String source, String reading, String when) {}

  /**
   * The evaporation credit of one sewer bill; amounts are absent where no claim can be made, and
   * the notes say why.
   */
  record ClaimAnswer(
      LocalDate from,
      LocalDate to,
      @Nullable String rule,
      @Nullable String deadline,
      @Nullable String unit,
      @JsonProperty("credit_units") @Nullable BigDecimal creditUnits,
      @JsonProperty("credit_due") @Nullable BigDecimal creditDue,
      @JsonProperty("credit_claimed") @Nullable BigDecimal creditClaimed,
      @JsonProperty("credit_unclaimed") @Nullable BigDecimal creditUnclaimed,
      List<String> working,
      List<EvidenceAnswer> evidence,
      List<String> disclosures,
      List<String> notes) {}

  /** The evaporation credit due, claimed and unclaimed on each sewer bill of a site. */
  @GetMapping("/api/v1/sites/{code}/credit-claims")
  List<ClaimAnswer> claims(
      Viewer viewer,
      @PathVariable("code") String code,
      @RequestParam(name = "from", required = false) @Nullable String from,
      @RequestParam(name = "to", required = false) @Nullable String to) {
    return bills.listClaims(get(viewer, code), first(from), end(to)).stream()
        .map(SiteBillsController::answer)
        .toList();
  }

  private Site get(Viewer viewer, String code) {
    return access.findSite(viewer, code).orElseThrow(() -> new NotThereException("site", code));
  }

  private static CheckAnswer answer(SiteBills.Checked checked) {
    UtilityBill bill = checked.bill();
    BillCheck check = checked.check();
    return new CheckAnswer(
        bill.service().code(),
        bill.from(),
        bill.to(),
        bill.estimated(),
        check == null ? null : check.unit(),
        bill.units(),
        check == null ? null : rounded(check.meteredUnits()),
        check == null ? null : rounded(check.usageGap()),
        bill.amount(),
        check == null || check.expected() == null ? null : check.expected().total().amount(),
        check == null ? null : amount(check.amountGap()),
        bill.creditAmount(),
        check == null ? null : amount(check.creditDue()),
        check == null
            ? List.of()
            : check.reasons().stream()
                .map(reason -> new Reason(LedgerColumns.code(reason.kind()), reason.text()))
                .toList(),
        check == null || check.expected() == null
            ? List.of()
            : check.expected().lines().stream()
                .map(line -> "%s: %s".formatted(line.name(), line.working()))
                .toList(),
        checked.notes());
  }

  private static ClaimAnswer answer(SiteBills.Claimed claimed) {
    UtilityBill bill = claimed.bill();
    Claim claim = claimed.claim();
    if (claim == null) {
      return new ClaimAnswer(
          bill.from(),
          bill.to(),
          null,
          null,
          null,
          null,
          null,
          bill.creditAmount(),
          null,
          List.of(),
          List.of(),
          List.of(),
          claimed.notes());
    }
    return new ClaimAnswer(
        bill.from(),
        bill.to(),
        claim.rule().method().code(),
        claim.rule().deadline(),
        claim.unit().code(),
        units(claim, claim.unit()),
        claim.due().amount(),
        amount(claim.claimed()),
        claim.unclaimed().amount(),
        claim.working().lines(),
        claim.evidence().stream()
            .map(e -> new EvidenceAnswer(e.source(), e.reading(), e.when()))
            .toList(),
        claim.disclosures().stream().map(Claim.Disclosure::text).toList(),
        claimed.notes());
  }

  private static BigDecimal units(Claim claim, VolumeUnit unit) {
    return BigDecimal.valueOf(claim.volume().in(unit)).setScale(3, RoundingMode.HALF_UP);
  }

  private static @Nullable BigDecimal rounded(@Nullable BigDecimal units) {
    return units == null ? null : units.setScale(3, RoundingMode.HALF_UP);
  }

  private static @Nullable BigDecimal amount(@Nullable Money money) {
    return money == null ? null : money.rounded().amount();
  }

  private static LocalDate first(@Nullable String text) {
    return text == null ? SiteBills.FIRST_DAY : day(text, false);
  }

  private static LocalDate end(@Nullable String text) {
    return text == null ? SiteBills.LAST_DAY : day(text, true);
  }

  /** A day, or a month: its first day, or for an end the day after its last. */
  private static LocalDate day(String text, boolean end) {
    try {
      if (text.strip().length() == 7) {
        YearMonth month = YearMonth.parse(text.strip());
        return end ? month.plusMonths(1).atDay(1) : month.atDay(1);
      }
      return LocalDate.parse(text.strip());
    } catch (DateTimeException e) {
      throw new FieldProblem(
          "'%s' is neither a day (2025-07-01) nor a month (2025-07)"
              .formatted(text.length() > 40 ? text.substring(0, 40) + "…" : text));
    }
  }
}
