package towerledger.tariff;

import java.time.LocalDate;
import java.util.Currency;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.RateVersion.BlockTable;
import towerledger.tariff.RateVersion.Charge;
import towerledger.tariff.WaterPrice.Loss;

/** How long a bill takes, and the price of the waste of 10,000 systems over 60 months. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class BillingBenchmark {

  private static final Currency USD = Currency.getInstance("USD");
  private static final VolumeUnit KGAL = VolumeUnit.THOUSAND_US_GALLONS;
  private static final int SYSTEMS = 10_000;
  private static final int MONTHS = 60;
  private static final LocalDate FIRST = LocalDate.of(2021, 1, 1);

  private final RateSchedule water = water();
  private final List<RateSchedule> both = List.of(water, sewer());
  private final SiteUse month = use(7, 18);
  private final SiteUse changing =
      SiteUse.of(LocalDate.of(2022, 6, 10), LocalDate.of(2022, 7, 11), Usage.of("812", KGAL))
          .withMeterSize(MeterSize.ofInches(3));

  /** One water bill of a month: nine meter sizes, two seasons of four blocks, surcharge, tax. */
  @Benchmark
  @OutputTimeUnit(TimeUnit.MICROSECONDS)
  public Bill oneBill() {
    return Billing.bill(water, month, USD);
  }

  /** The same over a change of rates. */
  @Benchmark
  @OutputTimeUnit(TimeUnit.MICROSECONDS)
  public Bill oneBillOverARateChange() {
    return Billing.bill(water, changing, USD);
  }

  /** Water and sewer with evaporation credit, with and without two losses, and each one alone. */
  @Benchmark
  @OutputTimeUnit(TimeUnit.MICROSECONDS)
  public WaterPrice.Price marginalPriceOfTwoLosses() {
    return WaterPrice.marginal(both, month, losses(7), USD);
  }

  /** Every month of 10,000 systems over 60 months, on all cores. */
  @Benchmark
  @BenchmarkMode(Mode.SingleShotTime)
  @OutputTimeUnit(TimeUnit.SECONDS)
  @Warmup(iterations = 1)
  @Measurement(iterations = 3)
  public double fleetOfTenThousand() {
    return IntStream.range(0, SYSTEMS)
        .parallel()
        .mapToDouble(
            system -> {
              double sum = 0;
              for (int i = 0; i < MONTHS; i++) {
                sum +=
                    WaterPrice.marginal(both, use(system, i), losses(system), USD)
                        .joint()
                        .amount()
                        .doubleValue();
              }
              return sum;
            })
        .sum();
  }

  private static SiteUse use(int system, int month) {
    LocalDate from = FIRST.plusMonths(month);
    double makeup = 200 + system % 400 + 20.37 * (month % 12);
    return SiteUse.of(from, from.plusMonths(1), Usage.of(kgal(makeup * 1.9)))
        .withMeterSize(MeterSize.ofInches(3))
        .withTowers(
            List.of(
                TowerWater.of("T")
                    .withMakeup(kgal(makeup))
                    .withBlowdown(kgal(makeup * 0.31))
                    .withModelled(kgal(makeup * 0.6), kgal(makeup * 0.66))));
  }

  private static List<Loss> losses(int system) {
    return List.of(
        new Loss("leak", "T", kgal(10.1 + system % 40), Loss.Path.TO_DRAIN),
        new Loss("bleed", "T", kgal(7.7 + system % 25), Loss.Path.THROUGH_BLOWDOWN_METER));
  }

  private static Volume kgal(double units) {
    return Volume.of(units, KGAL);
  }

  private static RateSchedule water() {
    return RateSchedule.of("water", Service.WATER, version(2020), version(2021), version(2022),
        version(2023), version(2024), version(2025));
  }

  private static RateSchedule sewer() {
    return RateSchedule.of(
        "sewer",
        Service.SEWER,
        IntStream.rangeClosed(2020, 2025)
            .mapToObj(
                year ->
                    RateVersion.from(LocalDate.of(year, 7, 1), KGAL)
                        .withCharge("sewer service", "31.40")
                        .withBlocks("0", "7.12", "500", "6.10")
                        .withSurchargeShare("0.02")
                        .withCredit(CreditRule.of(CreditRule.Method.MAKEUP_MINUS_BLOWDOWN)))
            .toArray(RateVersion[]::new));
  }

  private static RateVersion version(int year) {
    RateVersion version =
        RateVersion.from(LocalDate.of(year, 7, 1), KGAL)
            .withTables(
                List.of(
                    BlockTable.of(
                        new Season(5, 10), null, "0", "4.10", "100", "5.20", "500", "6.30",
                        "1500", "7.40"),
                    BlockTable.of(
                        new Season(11, 4), null, "0", "3.90", "100", "4.80", "500", "5.60",
                        "1500", "6.10")))
            .withSurchargeShare("0.035")
            .withTaxShare("0.0125");
    for (double inches : List.of(0.625, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0)) {
      version =
          version.withCharge(
              new Charge(
                  "service",
                  MeterSize.ofInches(inches),
                  java.math.BigDecimal.valueOf(inches * 30 + (year - 2020))));
    }
    return version.withCharge("readiness", "12.50");
  }
}
