package towerledger.tariff;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import towerledger.quantity.Money;

/**
 * What a yearly amount becomes as rates rise: the first year at today's rates, every later year
 * dearer by the scenario's escalation. The same water is assumed every year.
 *
 * @param annual amount of a year at today's rates
 * @param courses one a scenario
 */
public record Projection(Money annual, List<Course> courses) {

  /** Years of the usual projection. */
  public static final int FIVE_YEARS = 5;

  /** The {@link #usual} scenarios under English names. */
  public static final List<Scenario> USUAL =
      usual("rates stay", "rates up %d %% in two years"::formatted);

  public Projection {
    courses = List.copyOf(courses);
  }

  /**
   * Rates that stay, and rates that rise by 20 and by 30 % over two years, which the trade reports
   * of recent years: common practice, no source.
   *
   * @param stay name of rates that stay
   * @param up name of rates that rise by so many percent
   */
  public static List<Scenario> usual(String stay, IntFunction<String> up) {
    return List.of(
        new Scenario(stay, BigDecimal.ZERO),
        Scenario.overTwoYears(up.apply(20), 0.20),
        Scenario.overTwoYears(up.apply(30), 0.30));
  }

  /**
   * Projects an amount.
   *
   * @param annual amount of a year at today's rates
   * @param years number of years, 1–30
   * @param scenarios how rates rise
   */
  public static Projection of(Money annual, int years, List<Scenario> scenarios) {
    if (years < 1 || years > 30) {
      throw new IllegalArgumentException(
          "projection over %d years is outside 1 to 30; choose fewer or more".formatted(years));
    }
    return new Projection(
        annual, scenarios.stream().map(scenario -> course(annual, years, scenario)).toList());
  }

  /**
   * The yearly escalation a schedule has shown: the same year's use billed at its first and at its
   * last version.
   *
   * @param use a site's use of one regular bill or of a year
   * @return empty when there are not two versions a year or more apart
   */
  public static Optional<Scenario> asInThePast(
      RateSchedule schedule, SiteUse use, Currency currency) {
    LocalDate first = schedule.versions().get(0).effectiveFrom();
    RateVersion newest = schedule.versions().get(schedule.versions().size() - 1);
    double years = ChronoUnit.DAYS.between(first, newest.effectiveFrom()) / 365.2425;
    if (years < 1) {
      return Optional.empty();
    }
    double before = billedAt(schedule, schedule.versions().get(0), use, currency);
    double after = billedAt(schedule, newest, use, currency);
    if (before <= 0 || after <= 0) {
      return Optional.empty();
    }
    return Optional.of(
        new Scenario(
            "as schedule %s rose from %s to %s"
                .formatted(schedule.code(), first, newest.effectiveFrom()),
            share(Math.pow(after / before, 1 / years) - 1)));
  }

  private static double billedAt(
      RateSchedule schedule, RateVersion version, SiteUse use, Currency currency) {
    RateSchedule alone =
        RateSchedule.of(
            schedule.code(), schedule.service(), version.withEffectiveFrom(use.startInclusive()));
    return Billing.bill(alone, use, currency).exact().amount().doubleValue();
  }

  private static Course course(Money annual, int years, Scenario scenario) {
    List<Money> amounts = new ArrayList<>();
    Money total = Money.zero(annual.currency());
    BigDecimal factor = BigDecimal.ONE;
    for (int year = 0; year < years; year++) {
      Money amount = annual.times(factor).rounded();
      amounts.add(amount);
      total = total.plus(amount);
      factor = factor.multiply(BigDecimal.ONE.add(scenario.escalation()), MathContext.DECIMAL64);
    }
    return new Course(scenario, amounts, total);
  }

  private static BigDecimal share(double value) {
    return BigDecimal.valueOf(value).setScale(4, RoundingMode.HALF_UP);
  }

  /**
   * How rates rise.
   *
   * @param name words for people
   * @param escalation yearly rise as a share, −0.5 to 1
   */
  public record Scenario(String name, BigDecimal escalation) {

    public Scenario {
      if (Math.abs(escalation.doubleValue() - 0.25) > 0.75) {
        throw new IllegalArgumentException(
            "escalation of %s %% a year is outside -50 to 100; choose another"
                .formatted(escalation.movePointRight(2).stripTrailingZeros().toPlainString()));
      }
    }

    /** A rise over two years, spread evenly over both. */
    public static Scenario overTwoYears(String name, double rise) {
      return new Scenario(name, share(Math.sqrt(1 + rise) - 1));
    }
  }

  /**
   * A scenario's amounts.
   *
   * @param scenario how rates rise
   * @param years amount of each year, rounded
   * @param total their sum
   */
  public record Course(Scenario scenario, List<Money> years, Money total) {

    public Course {
      years = List.copyOf(years);
    }
  }
}
