package towerledger.tariff;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.RateVersion.BlockTable;

/** Rates of invented utilities for the tests, fixed and drawn at random. */
final class Rates {

  static final Currency USD = Currency.getInstance("USD");
  static final VolumeUnit CCF = VolumeUnit.HUNDRED_CUBIC_FEET;
  static final LocalDate LONG_AGO = LocalDate.of(2020, 1, 1);

  private Rates() {}

  static RateVersion ccf(String effectiveFrom) {
    return RateVersion.from(LocalDate.parse(effectiveFrom), CCF);
  }

  static RateSchedule water(RateVersion... versions) {
    return RateSchedule.of("water", Service.WATER, versions);
  }

  static RateSchedule sewer(RateVersion... versions) {
    return RateSchedule.of("sewer", Service.SEWER, versions);
  }

  static SiteUse use(String from, String to, String ccf) {
    return SiteUse.of(LocalDate.parse(from), LocalDate.parse(to), Usage.of(ccf, CCF));
  }

  static String total(RateSchedule schedule, SiteUse use) {
    return Billing.bill(schedule, use, USD).total().amount().toPlainString();
  }

  /** Rates with up to four rising or falling blocks, seasons, a minimum, surcharge and tax. */
  static RateVersion random(Random random, LocalDate effectiveFrom) {
    RateVersion version =
        RateVersion.from(effectiveFrom, CCF)
            .withMonthsPerBill(1 + random.nextInt(3))
            .withCharge("service", decimal(random, 4000, 2));
    if (random.nextInt(3) == 0) {
      version = version.withMinimumCharge(decimal(random, 9000, 2));
    }
    if (random.nextInt(3) == 0) {
      version = version.withSurchargeShare(decimal(random, 200, 3));
    }
    if (random.nextInt(3) == 0) {
      version = version.withTaxShare(decimal(random, 100, 3));
    }
    if (random.nextBoolean()) {
      return version.withTables(List.of(table(random, null)));
    }
    int first = 1 + random.nextInt(12);
    Season summer = new Season(first, (first + 3) % 12 + 1);
    Season winter = new Season((first + 4) % 12 + 1, (first + 10) % 12 + 1);
    return version.withTables(List.of(table(random, summer), table(random, winter)));
  }

  static String decimal(Random random, int bound, int scale) {
    return BigDecimal.valueOf(random.nextInt(bound), scale).toPlainString();
  }

  private static BlockTable table(Random random, @Nullable Season season) {
    List<String> blocks = new ArrayList<>();
    int from = 0;
    for (int i = 0; i <= random.nextInt(4); i++) {
      blocks.add(Integer.toString(from));
      blocks.add(decimal(random, 1200, 2));
      from += 1 + random.nextInt(60);
    }
    return BlockTable.of(season, null, blocks.toArray(String[]::new));
  }
}
