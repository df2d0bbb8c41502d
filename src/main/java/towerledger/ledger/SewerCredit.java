package towerledger.ledger;

import java.math.BigDecimal;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Volume;
import towerledger.tariff.Bill;
import towerledger.tariff.Billing;
import towerledger.tariff.CreditRule;
import towerledger.tariff.EvaporationCredit;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Service;
import towerledger.tariff.SiteUse;
import towerledger.tariff.TowerWater;

/**
 * The sewer credit that one system's evaporated water deserves by the utility's rule. Where no
 * meter shows the makeup it is what is at stake: what the rule would give if meters showed what the
 * model says. Empty where a meter that the rule needs is missing beside a metered makeup: a figure
 * not known is no zero.
 */
final class SewerCredit {

  private final List<RateSchedule> schedules;
  private final Currency currency;

  SewerCredit(List<RateSchedule> schedules, Currency currency) {
    this.schedules = schedules;
    this.currency = currency;
  }

  /**
   * What the sewer bill falls by when this system's evaporated water is credited alone.
   *
   * @param use the site's use without its towers
   * @param tower the system's water as far as it is known
   * @param expectedMakeup makeup expected of a sound system; null where it is not known
   */
  Optional<BigDecimal> of(SiteUse use, TowerWater tower, @Nullable Volume expectedMakeup) {
    TowerWater water = tower.makeup() == null ? asIfMetered(tower, expectedMakeup) : tower;
    if (water.makeup() == null && water.modelled() == null) {
      return Optional.empty();
    }
    List<RateVersion> crediting =
        schedules.stream()
            .filter(schedule -> schedule.service() == Service.SEWER)
            .flatMap(schedule -> schedule.findVersion(use.startInclusive()).stream())
            .filter(version -> version.credit().method() != CreditRule.Method.NONE)
            .toList();
    SiteUse credited = use.withTowers(List.of(water));
    if (crediting.stream().noneMatch(version -> measured(version, credited))) {
      return Optional.empty();
    }
    Bill without = Billing.bill(schedules, use.withTowers(List.of()), currency);
    Bill with = Billing.bill(schedules, credited, currency);
    return Optional.of(without.exact().minus(with.exact()).rounded().amount());
  }

  private static boolean measured(RateVersion version, SiteUse use) {
    return EvaporationCredit.assess(version.credit(), use, version.billingUnit(), 1)
        .towers()
        .stream()
        .noneMatch(tower -> tower.remarks().contains(EvaporationCredit.Remark.NOT_MEASURED));
  }

  private static TowerWater asIfMetered(TowerWater tower, @Nullable Volume expectedMakeup) {
    Volume evaporated = tower.modelled();
    if (evaporated == null) {
      return tower;
    }
    double expected = expectedMakeup == null ? 0 : expectedMakeup.litres();
    Volume makeup = Volume.ofLitres(Math.max(expected, evaporated.litres()));
    TowerWater metered = tower.withMakeup(makeup).withBlowdown(makeup.minus(evaporated));
    return tower.creditMeter() == null ? metered.withCreditMeter(evaporated) : metered;
  }
}
