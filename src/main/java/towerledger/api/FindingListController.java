package towerledger.api;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.balance.Cause;
import towerledger.finding.Finding;
import towerledger.finding.FindingStatus;
import towerledger.finding.Findings;
import towerledger.finding.Range;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.wording.Cautions;
import towerledger.wording.Words;

/** Findings for scripts. */
@RestController
class FindingListController {

  private static final int MOST = 1000;

  private final Findings findings;
  private final MessageSource messages;

  FindingListController(Findings findings, MessageSource messages) {
    this.findings = findings;
    this.messages = messages;
  }

  /**
   * An estimate with its 95 % interval.
   *
   * @param value best estimate
   * @param low lower bound
   * @param high upper bound
   */
  record Estimate(double value, double low, double high) {

    static @Nullable Estimate gallons(@Nullable Range litres) {
      return litres == null
          ? null
          : new Estimate(gallons(litres.value()), gallons(litres.low()), gallons(litres.high()));
    }

    private static double gallons(double litres) {
      return rounded(Volume.ofLitres(litres).in(VolumeUnit.US_GALLON), 3);
    }

    static @Nullable Estimate amount(@Nullable Range money) {
      return money == null
          ? null
          : new Estimate(
              rounded(money.value(), 2), rounded(money.low(), 2), rounded(money.high(), 2));
    }

    /** As ledger.csv writes volumes and amounts. */
    private static double rounded(double value, int places) {
      return BigDecimal.valueOf(value).setScale(places, RoundingMode.HALF_UP).doubleValue();
    }
  }

  /** A finding as scripts read it; money is left out for those who may not see prices. */
  record Row(
      long id,
      String system,
      String site,
      String customer,
      String status,
      boolean waste,
      String likeliest_cause,
      double cause_probability,
      List<String> cause_set,
      String first_month,
      String last_month,
      @Nullable String onset_month,
      @Nullable Instant onset_at,
      @Nullable Instant detected_at,
      @Nullable Estimate loss_since_onset_gal,
      @Nullable Estimate yearly_loss_gal,
      String currency,
      @Nullable Estimate expected_saving_amount_per_year,
      @Nullable String assignee,
      Instant opened_at,
      @Nullable Instant worked_at,
      @Nullable Integer saved_months,
      @Nullable Estimate saved_gal,
      @Nullable Estimate saved_amount,
      List<String> check_first,
      List<String> bring,
      List<String> cautions) {}

  /**
   * Visible findings, dearest first.
   *
   * @param status only those of one status; absent for all
   */
  @OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
  @GetMapping("/api/v1/findings")
  List<Row> list(
      Viewer viewer, @RequestParam(name = "status", required = false) @Nullable String status) {
    List<FindingStatus> wanted =
        status == null ? Arrays.asList(FindingStatus.values()) : List.of(wanted(status));
    Words words = new Words(messages, Locale.US);
    return findings.list(viewer, wanted, 0, MOST).stream()
        .map(finding -> row(viewer, finding, words))
        .toList();
  }

  private static FindingStatus wanted(String status) {
    return FindingStatus.find(status)
        .orElseThrow(
            () ->
                new FieldProblem(
                    "No finding has this 'status'; use %s."
                        .formatted(
                            Arrays.stream(FindingStatus.values())
                                .map(FindingStatus::code)
                                .collect(Collectors.joining(", ")))));
  }

  private static Row row(Viewer viewer, Finding finding, Words words) {
    boolean money = viewer.canSeePrices();
    Finding.Saved saved = finding.saved().orElse(null);
    return new Row(
        finding.id(),
        finding.of().system(),
        finding.of().site(),
        finding.of().customer(),
        finding.status().code(),
        finding.waste(),
        finding.likeliest().code(),
        finding.probability(),
        finding.causeSet().stream().map(Cause::code).toList(),
        finding.first().toString(),
        finding.last().toString(),
        finding.onset().map(Object::toString).orElse(null),
        finding.onsetAt().orElse(null),
        finding.detectedAt().orElse(null),
        Estimate.gallons(finding.lossSince().orElse(null)),
        Estimate.gallons(finding.yearlyLitres().orElse(null)),
        finding.currency().getCurrencyCode(),
        money ? Estimate.amount(finding.yearlyAmount().orElse(null)) : null,
        finding.assignee().map(Finding.Assignee::name).orElse(null),
        finding.openedAt(),
        finding.workedAt().orElse(null),
        saved == null ? null : saved.months(),
        saved == null ? null : Estimate.gallons(saved.litres()),
        saved == null || !money ? null : Estimate.amount(saved.amount().orElse(null)),
        finding.causeSet().stream()
            .map(cause -> words.of("cause." + cause.code() + ".next"))
            .toList(),
        finding.causeSet().stream()
            .map(cause -> words.of("cause." + cause.code() + ".parts"))
            .toList(),
        Cautions.of(finding.causeSet(), words));
  }
}
