package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.EvaporationCredit.TowerCredit;

/**
 * A claim for the sewer credit of a bill period, complete enough for a utility clerk to check:
 * rule, meters and readings, each step of the arithmetic, the amount, and what was left out of it.
 *
 * @param site code of the site
 * @param schedule code and name of the sewer schedule
 * @param use period and water the claim is for
 * @param rule the utility's rule, with its deadline
 * @param unit billing unit of the volumes
 * @param working the steps of the arithmetic
 * @param evidence readings and samples behind the volumes
 * @param volume volume claimed
 * @param due amount the volume is worth on this bill: the bill without the credit minus the bill
 *     with it
 * @param claimed credit already given on the utility's bill; absent when not known
 * @param unclaimed due and not given yet, 0 or more; all of it when nothing is known of the bill
 * @param disclosures what is not claimed, or what the reader has to know
 */
public record Claim(
    String site,
    String schedule,
    SiteUse use,
    CreditRule rule,
    VolumeUnit unit,
    Working working,
    List<Evidence> evidence,
    Volume volume,
    Money due,
    @Nullable Money claimed,
    Money unclaimed,
    List<Disclosure> disclosures) {

  /**
   * Something that is not claimed, or that the reader has to know.
   *
   * @param kind what sort of thing
   * @param text in words
   */
  public record Disclosure(Kind kind, String text) {

    /** What sort of thing is disclosed. */
    public enum Kind {
      /** A system counted more than evaporation and drift can be; the working tells how much. */
      BEYOND_MODEL,
      /** The bill gave more than is due; the amounts tell how much. */
      GIVEN_OVER,
      /** Anything else. */
      REMARK
    }
  }

  public Claim {
    evidence = List.copyOf(evidence);
    disclosures = List.copyOf(disclosures);
  }

  /**
   * The claim of a bill period.
   *
   * @param site code of the site
   * @param schedule the sewer schedule; the version in force on the first day gives the rule
   * @param use period, whole site's water and the towers' water
   * @param evidence readings and samples behind the volumes
   * @param claimed credit the utility's bill gave; absent when not known
   * @throws TariffException when the schedule has no rates for the period
   */
  public static Claim of(
      String site,
      RateSchedule schedule,
      SiteUse use,
      List<Evidence> evidence,
      @Nullable Money claimed,
      Currency currency) {
    Bill without = Billing.bill(schedule, use.withTowers(List.of()), currency);
    Bill with = Billing.bill(schedule, use, currency);
    RateVersion version = schedule.findVersion(use.startInclusive()).orElseThrow();
    EvaporationCredit credit =
        EvaporationCredit.assess(
            version.credit(),
            use,
            version.billingUnit(),
            BillPeriod.of(use).regularBills(version.monthsPerBill()).doubleValue());
    Money due = WaterPrice.difference(without, with).rounded();
    Money left = claimed == null ? due : due.minus(claimed).rounded();
    Set<Disclosure> disclosures = new LinkedHashSet<>();
    with.notes().forEach(note -> disclosures.add(new Disclosure(Disclosure.Kind.REMARK, note)));
    if (left.amount().signum() < 0) {
      disclosures.add(
          new Disclosure(Disclosure.Kind.GIVEN_OVER, over(Money.zero(currency).minus(left))));
      left = Money.zero(currency).rounded();
    }
    List<String> lines = new ArrayList<>();
    for (TowerCredit tower : credit.towers()) {
      lines.add(working(version, use, tower));
      disclose(tower, version.billingUnit(), disclosures);
    }
    lines.add(
        "claimed: %s of %s metered water"
            .formatted(
                units(credit.volume(), version.billingUnit()),
                units(use.water().volume(), version.billingUnit())));
    lines.add(
        "sewer bill without the credit %s − with it %s = %s"
            .formatted(
                without.exact().rounded().amount().toPlainString(),
                with.exact().rounded().amount().toPlainString(),
                due.amount().toPlainString()));
    return new Claim(
        site,
        schedule.code() + " " + schedule.name(),
        use,
        version.credit(),
        version.billingUnit(),
        new Working(lines, credit, without.exact().rounded(), with.exact().rounded()),
        evidence,
        credit.volume(),
        due,
        claimed,
        left,
        List.copyOf(disclosures));
  }

  private static String working(RateVersion version, SiteUse use, TowerCredit credit) {
    VolumeUnit unit = version.billingUnit();
    if (credit.byRule() == null) {
      return "%s: nothing, a meter or estimate is missing".formatted(credit.system());
    }
    TowerWater tower =
        use.towers().stream()
            .filter(water -> water.system().equals(credit.system()))
            .findFirst()
            .orElseThrow();
    String counted =
        switch (version.credit().method()) {
          case NONE -> "no credit is given";
          case MAKEUP_MINUS_BLOWDOWN, BLOWDOWN_AS_SEWER ->
              "makeup %s − blowdown %s"
                  .formatted(known(tower.makeup(), unit), known(tower.blowdown(), unit));
          case CREDIT_METER -> "credit meter %s".formatted(known(tower.creditMeter(), unit));
          case PERCENT_OF_MAKEUP ->
              "%s %% of makeup %s"
                  .formatted(percent(version.credit().share()), known(tower.makeup(), unit));
          case ENGINEERED ->
              "evaporation and drift by the model %s".formatted(known(tower.modelled(), unit));
        };
    String line = "%s: %s = %s".formatted(credit.system(), counted, units(credit.byRule(), unit));
    return credit.credited().equals(credit.byRule())
        ? line
        : line + ", claimed " + units(credit.credited(), unit);
  }

  private static void disclose(TowerCredit tower, VolumeUnit unit, Set<Disclosure> disclosures) {
    for (EvaporationCredit.Remark remark : tower.remarks()) {
      disclosures.add(
          new Disclosure(
              Disclosure.Kind.REMARK, "%s: %s".formatted(tower.system(), remark.text())));
    }
    if (tower.beyondModel().litres() > 0) {
      disclosures.add(new Disclosure(Disclosure.Kind.BEYOND_MODEL, beyond(tower, unit)));
    }
  }

  private static String beyond(TowerCredit tower, VolumeUnit unit) {
    return "%s: %s lie beyond the model's upper bound"
        .formatted(tower.system(), units(tower.beyondModel(), unit));
  }

  private static String over(Money excess) {
    return "the bill gave %s more than the rule allows; the difference is not claimed and may be"
            .formatted(excess.rounded().amount().toPlainString())
        + " asked back";
  }

  private static String percent(@Nullable BigDecimal share) {
    return share == null ? "?" : share.movePointRight(2).stripTrailingZeros().toPlainString();
  }

  private static String known(@Nullable Volume volume, VolumeUnit unit) {
    return volume == null ? "unknown" : units(volume, unit);
  }

  private static String units(Volume volume, VolumeUnit unit) {
    return BigDecimal.valueOf(volume.in(unit)).setScale(2, RoundingMode.HALF_UP).toPlainString()
        + " "
        + unit.code().toLowerCase(Locale.ROOT);
  }

  /**
   * The arithmetic of a claim.
   *
   * @param lines the steps in words, one a line
   * @param credit what each system counts for, by the rule and by the model's bound
   * @param billWithout the sewer bill without the credit
   * @param billWith the sewer bill with it
   */
  public record Working(
      List<String> lines, EvaporationCredit credit, Money billWithout, Money billWith) {

    public Working {
      lines = List.copyOf(lines);
    }
  }

  /**
   * A reading or sample behind a volume.
   *
   * @param source meter, logbook or model it comes from
   * @param reading what was read, with unit
   * @param when instant or days it was read, as people write it
   */
  public record Evidence(String source, String reading, String when) {}
}
