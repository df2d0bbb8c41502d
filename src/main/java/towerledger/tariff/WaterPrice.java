package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;

/**
 * What water costs: at the margin, as the bill with it minus the bill without it on the whole
 * site's use, and on average for comparison.
 *
 * <p>Losses on one bill do not add up at the margin: the first one saved comes off the dearest
 * block. The difference of all together is computed and shared out in proportion to what each alone
 * would save; the shares sum to it to the cent. A share of a winter-average sewer cap that a loss
 * raises for later months is not priced.
 */
public final class WaterPrice {

  private WaterPrice() {}

  /**
   * The price of water lost in a bill period.
   *
   * @param schedules the site's schedules, usually water and sewer
   * @param use the site's use with the losses in it; its towers carry the evaporation credit the
   *     site claims, empty when it claims none. A calendar month may be given where bills are
   *     longer
   * @param losses water lost, each 0 or more
   * @param currency currency of the schedules
   * @throws TariffException when a bill cannot be made
   */
  public static Price marginal(
      List<RateSchedule> schedules, SiteUse use, List<Loss> losses, Currency currency) {
    List<String> notes = new ArrayList<>();
    if (!use.wholeSite()) {
      notes.add(
          "priced on the towers' own water alone, since no more of the site's use is known; with rising"
              + " blocks the true price is higher");
    }
    Bill with = Billing.bill(schedules, use, currency);
    Bill without = Billing.bill(schedules, without(use, losses, notes), currency);
    Money joint = difference(with, without).rounded();
    List<Share> shares =
        losses.size() == 1
            ? List.of(new Share(losses.get(0), joint, joint))
            : share(schedules, use, losses, with, joint);
    return new Price(with, without, joint, shares, notes);
  }

  /**
   * Money paid per unit of water, service charges and all.
   *
   * @return empty when no water was used
   */
  public static Optional<Money> average(Bill bill, Usage water) {
    return water.amount().signum() == 0
        ? Optional.empty()
        : Optional.of(
            Money.of(
                bill.exact().amount().divide(water.amount(), 6, RoundingMode.HALF_UP),
                bill.total().currency()));
  }

  private static List<Share> share(
      List<RateSchedule> schedules, SiteUse use, List<Loss> losses, Bill with, Money joint) {
    List<Money> alone = new ArrayList<>();
    BigDecimal[] weights = new BigDecimal[losses.size()];
    boolean usable = true;
    for (int i = 0; i < losses.size(); i++) {
      SiteUse rest = without(use, List.of(losses.get(i)), new ArrayList<>());
      Money difference = difference(with, Billing.bill(schedules, rest, joint.currency()));
      alone.add(difference.rounded());
      weights[i] = difference.amount();
      usable &= weights[i].signum() >= 0;
    }
    if (!usable || sum(weights).signum() == 0) {
      for (int i = 0; i < weights.length; i++) {
        weights[i] = BigDecimal.valueOf(losses.get(i).volume().litres());
      }
    }
    List<Money> parts = split(joint, weights);
    List<Share> shares = new ArrayList<>();
    for (int i = 0; i < losses.size(); i++) {
      shares.add(new Share(losses.get(i), alone.get(i), parts.get(i)));
    }
    return shares;
  }

  /**
   * Splits a rounded amount so that the parts, each in whole minor units, sum to it: every part is
   * rounded towards zero and the units left go to the largest remainders.
   */
  static List<Money> split(Money amount, BigDecimal[] weights) {
    int scale = amount.amount().scale();
    BigDecimal total = sum(weights);
    BigDecimal[] parts = new BigDecimal[weights.length];
    BigDecimal[] remainders = new BigDecimal[weights.length];
    BigDecimal left = amount.amount();
    for (int i = 0; i < weights.length; i++) {
      BigDecimal exact =
          total.signum() == 0
              ? BigDecimal.ZERO
              : amount
                  .amount()
                  .multiply(weights[i])
                  .divide(total, scale + 12, RoundingMode.HALF_EVEN);
      parts[i] = exact.setScale(scale, RoundingMode.DOWN);
      remainders[i] = exact.subtract(parts[i]).abs();
      left = left.subtract(parts[i]);
    }
    List<Integer> byRemainder =
        IntStream.range(0, weights.length)
            .boxed()
            .sorted(Comparator.comparing((Integer i) -> remainders[i]).reversed())
            .toList();
    BigDecimal minor =
        BigDecimal.ONE.movePointLeft(scale).multiply(BigDecimal.valueOf(left.signum()));
    for (int i = 0; left.signum() != 0 && weights.length > 0; i = (i + 1) % weights.length) {
      int part = byRemainder.get(i);
      parts[part] = parts[part].add(minor);
      left = left.subtract(minor);
    }
    List<Money> money = new ArrayList<>();
    for (BigDecimal part : parts) {
      money.add(Money.of(part, amount.currency()));
    }
    return money;
  }

  /**
   * What one bill is dearer than another before either is rounded. Settled to a millionth: a loss
   * comes in litres, and the ninth decimal of its conversion may not decide a half cent.
   */
  static Money difference(Bill with, Bill without) {
    Money difference = with.exact().minus(without.exact());
    return Money.of(difference.amount().setScale(6, RoundingMode.HALF_EVEN), difference.currency());
  }

  private static SiteUse without(SiteUse use, List<Loss> losses, List<String> notes) {
    Volume water = use.water().volume();
    Volume returned = use.returnMeter() == null ? null : use.returnMeter().volume();
    List<TowerWater> towers = new ArrayList<>(use.towers());
    for (Loss loss : losses) {
      water = water.minus(loss.volume());
      if (returned != null && loss.path() != Loss.Path.TO_GROUND) {
        returned = returned.minus(loss.volume());
      }
      towers.replaceAll(
          tower -> tower.system().equals(loss.system()) ? without(tower, loss) : tower);
    }
    if (water.litres() < 0) {
      notes.add(
          "the losses exceed the site's metered use by %.0f L; only the use is priced"
              .formatted(-water.litres()));
    }
    SiteUse rest = use.withWater(Usage.of(notBelowZero(water))).withTowers(towers);
    return returned == null ? rest : rest.withReturnMeter(Usage.of(notBelowZero(returned)));
  }

  private static TowerWater without(TowerWater tower, Loss loss) {
    TowerWater rest = tower;
    if (tower.makeup() != null) {
      rest = rest.withMakeup(notBelowZero(tower.makeup().minus(loss.volume())));
    }
    if (loss.path() == Loss.Path.THROUGH_BLOWDOWN_METER) {
      if (tower.blowdown() != null) {
        rest = rest.withBlowdown(notBelowZero(tower.blowdown().minus(loss.volume())));
      }
    } else if (tower.creditMeter() != null) {
      rest = rest.withCreditMeter(notBelowZero(tower.creditMeter().minus(loss.volume())));
    }
    return rest;
  }

  private static Volume notBelowZero(Volume volume) {
    return volume.litres() < 0 ? Volume.ZERO : volume;
  }

  private static BigDecimal sum(BigDecimal[] values) {
    BigDecimal sum = BigDecimal.ZERO;
    for (BigDecimal value : values) {
      sum = sum.add(value);
    }
    return sum;
  }

  /**
   * Water lost in a bill period.
   *
   * @param name what is lost, for people
   * @param system code of the system that loses it
   * @param volume extra water drawn because of it, 0 or more
   * @param path where it goes, which decides what credit and return meters see of it
   */
  public record Loss(String name, String system, Volume volume, Path path) {

    public Loss {
      if (volume.litres() < 0) {
        throw new IllegalArgumentException(
            "loss '%s' of system %s is %.1f L, below 0; a minus is no loss to price"
                .formatted(name, system, volume.litres()));
      }
    }

    /** Where lost water goes. */
    public enum Path {
      /** Through the blowdown meter into the sewer. */
      THROUGH_BLOWDOWN_METER,
      /** Past the blowdown meter into the sewer: overflow, a leaking drain valve. */
      TO_DRAIN,
      /** Into the ground or the air: a buried line, drift. */
      TO_GROUND
    }
  }

  /**
   * A loss with its price.
   *
   * @param loss the loss
   * @param alone what saving it alone would have saved
   * @param share its share of the joint difference
   */
  public record Share(Loss loss, Money alone, Money share) {}

  /**
   * The price of the losses of a bill period.
   *
   * @param with the bill as it is
   * @param without the bill had nothing been lost
   * @param joint difference of the two before either is rounded, rounded once
   * @param shares one a loss, summing to the joint difference
   * @param notes what limits the figure
   */
  public record Price(
      Bill with, Bill without, Money joint, List<Share> shares, List<String> notes) {

    public Price {
      shares = List.copyOf(shares);
      notes = List.copyOf(notes);
    }
  }
}
