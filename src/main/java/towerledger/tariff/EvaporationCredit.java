package towerledger.tariff;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;

/**
 * The water of a bill period that the utility's rule takes off the sewer volume because it
 * evaporated or drifted away.
 *
 * <p>A volume by meters (makeup − blowdown, credit meter) also counts overflow and leaks. It is
 * therefore held against the upper bound of modelled evaporation and drift; what lies beyond is
 * disclosed and not credited. A fixed percentage, an engineer's estimate and a blowdown meter
 * billed as the sewer volume are the utility's own figures and stand as they are, with a remark
 * when the model says less. An engineer's estimate is credited once a meter shows the makeup: until
 * then nothing holds it to the water that came in.
 *
 * @param rule the utility's rule
 * @param towers one entry a system
 * @param volume credit of all systems together, after threshold and caps; never above the site's
 *     water
 * @param remarks what holds for the whole site
 */
public record EvaporationCredit(
    CreditRule rule, List<TowerCredit> towers, Volume volume, Set<Remark> remarks) {

  private static final EvaporationCredit NOTHING =
      new EvaporationCredit(CreditRule.NONE, List.of(), Volume.ZERO, Set.of());

  public EvaporationCredit {
    towers = List.copyOf(towers);
    remarks = Set.copyOf(remarks);
  }

  /**
   * The credit of a bill period.
   *
   * @param rule the utility's rule
   * @param use the site's use with the water of its towers
   * @param billingUnit unit of the threshold
   * @param regularBills regular bills in the period, by which the threshold is scaled; 1 for an
   *     ordinary bill
   */
  public static EvaporationCredit assess(
      CreditRule rule, SiteUse use, VolumeUnit billingUnit, double regularBills) {
    if (rule.method() == CreditRule.Method.NONE || use.towers().isEmpty()) {
      return NOTHING;
    }
    List<TowerCredit> towers = new ArrayList<>(use.towers().size());
    double litres = 0;
    for (TowerWater tower : use.towers()) {
      TowerCredit credit = assess(rule, tower);
      towers.add(credit);
      litres += credit.credited().litres();
    }
    Set<Remark> remarks = EnumSet.noneOf(Remark.class);
    Volume water = use.water().volume();
    if (rule.minimumUnits() != null
        && water.in(billingUnit) < rule.minimumUnits().doubleValue() * regularBills) {
      remarks.add(Remark.BELOW_MINIMUM_USE);
      litres = 0;
    }
    if (litres > water.litres()) {
      remarks.add(Remark.LIMITED_TO_SITE_WATER);
      litres = water.litres();
    }
    return new EvaporationCredit(rule, towers, new Volume(litres), remarks);
  }

  private static TowerCredit assess(CreditRule rule, TowerWater tower) {
    Set<Remark> remarks = EnumSet.noneOf(Remark.class);
    Volume counted =
        switch (rule.method()) {
          case NONE -> Volume.ZERO;
          case MAKEUP_MINUS_BLOWDOWN, BLOWDOWN_AS_SEWER -> difference(tower);
          case CREDIT_METER -> tower.creditMeter();
          case PERCENT_OF_MAKEUP -> shareOfMakeup(rule, tower);
          case ENGINEERED -> tower.modelled();
        };
    if (counted == null) {
      remarks.add(Remark.NOT_MEASURED);
      return new TowerCredit(tower.system(), null, Volume.ZERO, Volume.ZERO, remarks);
    }
    if (rule.method() == CreditRule.Method.ENGINEERED && tower.makeup() == null) {
      remarks.add(Remark.UNMETERED);
      return new TowerCredit(tower.system(), counted, Volume.ZERO, Volume.ZERO, remarks);
    }
    double byRule = counted.litres();
    if (byRule < 0) {
      remarks.add(Remark.BLOWDOWN_ABOVE_MAKEUP);
      byRule = 0;
    }
    if (tower.makeup() != null && byRule > tower.makeup().litres()) {
      remarks.add(Remark.LIMITED_TO_MAKEUP);
      byRule = tower.makeup().litres();
    }
    double credited = byRule;
    double beyond = 0;
    if (tower.modelledUpper() == null) {
      remarks.add(Remark.NOT_HELD_AGAINST_MODEL);
    } else if (byRule > tower.modelledUpper().litres()) {
      beyond = byRule - tower.modelledUpper().litres();
      boolean byMeters =
          rule.method() == CreditRule.Method.MAKEUP_MINUS_BLOWDOWN
              || rule.method() == CreditRule.Method.CREDIT_METER;
      remarks.add(byMeters ? Remark.HELD_TO_MODEL : Remark.ABOVE_MODEL);
      credited = byMeters ? tower.modelledUpper().litres() : byRule;
    }
    if (rule.capShare() != null) {
      if (tower.makeup() == null) {
        remarks.add(Remark.NOT_MEASURED);
        credited = 0;
      } else if (credited > rule.capShare().doubleValue() * tower.makeup().litres()) {
        remarks.add(Remark.CAPPED);
        credited = rule.capShare().doubleValue() * tower.makeup().litres();
      }
    }
    return new TowerCredit(
        tower.system(), new Volume(byRule), new Volume(credited), new Volume(beyond), remarks);
  }

  private static @Nullable Volume difference(TowerWater tower) {
    return tower.makeup() == null || tower.blowdown() == null
        ? null
        : tower.makeup().minus(tower.blowdown());
  }

  private static @Nullable Volume shareOfMakeup(CreditRule rule, TowerWater tower) {
    return tower.makeup() == null || rule.share() == null
        ? null
        : tower.makeup().times(rule.share().doubleValue());
  }

  /**
   * One system's part of the credit.
   *
   * @param system code of the system
   * @param byRule volume the rule counts, within 0 and the makeup; absent when a meter or estimate
   *     it needs is missing
   * @param credited volume credited
   * @param beyondModel what the rule counts beyond the upper bound of the model
   * @param remarks why the credited volume is not the counted one, and what was missing
   */
  public record TowerCredit(
      String system,
      @Nullable Volume byRule,
      Volume credited,
      Volume beyondModel,
      Set<Remark> remarks) {

    public TowerCredit {
      remarks = Set.copyOf(remarks);
    }
  }

  /** Something a reader of the credit has to know. */
  public enum Remark {
    BELOW_MINIMUM_USE("the site used less than the rule's minimum, so no credit is given"),
    LIMITED_TO_SITE_WATER(
        "the towers' credit exceeds the water of the whole site and is limited to it; check which"
            + " meter feeds the towers"),
    NOT_MEASURED("a meter or estimate the rule needs is missing, so nothing is credited"),
    UNMETERED(
        "no meter shows the makeup, so what evaporated is not claimed before the water is metered"),
    BLOWDOWN_ABOVE_MAKEUP("blowdown exceeds makeup, so nothing is credited; check both meters"),
    LIMITED_TO_MAKEUP("more was counted than the makeup; limited to the makeup"),
    HELD_TO_MODEL(
        "the meters count more than evaporation and drift can be; what lies beyond the model's upper"
            + " bound (overflow, leaks) is disclosed and not claimed"),
    ABOVE_MODEL(
        "the utility's figure is above the model's upper bound of evaporation and drift; disclosed"),
    NOT_HELD_AGAINST_MODEL(
        "evaporation and drift could not be modelled, so the meters stand unchecked"),
    CAPPED("limited to the cap of the rule");

    private final String text;

    Remark(String text) {
      this.text = text;
    }

    /** The remark as a sentence without its full stop. */
    public String text() {
      return text;
    }
  }
}
