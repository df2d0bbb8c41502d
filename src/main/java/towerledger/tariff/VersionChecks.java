package towerledger.tariff;

import java.math.BigDecimal;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/** What the rates of a version have to keep to among each other; errors name the remedy. */
final class VersionChecks {

  private VersionChecks() {}

  static void requirePercent(String column, BigDecimal share) {
    if (share.signum() < 0 || share.compareTo(BigDecimal.ONE) > 0) {
      throw new IllegalArgumentException(
          "%s of %s is outside 0 to 100; give the percentage the utility prints"
              .formatted(column, share.movePointRight(2).stripTrailingZeros().toPlainString()));
    }
  }

  static void requireDistinctCharges(List<RateVersion.Charge> charges) {
    Set<Object> seen = new HashSet<>();
    for (RateVersion.Charge charge : charges) {
      if (!seen.add(List.of(charge.name(), String.valueOf(charge.meterSize())))) {
        throw new IllegalArgumentException(
            "charge '%s'%s is given twice; keep one amount"
                .formatted(
                    charge.name(), charge.meterSize() == null ? "" : " for " + charge.meterSize()));
      }
    }
  }

  /** Seasons of one meter size may not overlap, and leave no month unless a table has no season. */
  static void requireSeasonsFit(List<RateVersion.BlockTable> tables) {
    for (RateVersion.BlockTable table : tables) {
      boolean wholeYear = false;
      for (int month = 1; month <= 12; month++) {
        int seasonal = 0;
        int unseasonal = 0;
        for (RateVersion.BlockTable other : tables) {
          if (Objects.equals(other.meterSize(), table.meterSize())) {
            Season season = other.season();
            if (season == null) {
              unseasonal++;
            } else if (season.contains(month)) {
              seasonal++;
            }
          }
        }
        String size = table.meterSize() == null ? "" : " for meter size " + table.meterSize();
        if (seasonal > 1 || unseasonal > 1) {
          throw new IllegalArgumentException(
              "two block tables%s hold in month %d; make first_month and last_month of the seasons"
                      .formatted(size, month)
                  + " meet without overlap");
        }
        wholeYear |= unseasonal == 1;
        if (seasonal == 0 && !wholeYear) {
          throw new IllegalArgumentException(
              "no block table%s holds in month %d; extend a season or add blocks without one"
                  .formatted(size, month));
        }
      }
    }
  }
}
