package towerledger.tariff;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * A bill as the utility sent it, for one service.
 *
 * @param service what is billed
 * @param from first day billed
 * @param to first day no longer billed
 * @param units billing units charged; absent when the bill does not say
 * @param amount total charged; absent when not known
 * @param creditAmount credit given on the bill, 0 or more; absent when not known
 * @param estimated whether the read was estimated; absent when not known
 */
public record UtilityBill(
    Service service,
    LocalDate from,
    LocalDate to,
    @Nullable BigDecimal units,
    @Nullable BigDecimal amount,
    @Nullable BigDecimal creditAmount,
    @Nullable Boolean estimated) {

  public UtilityBill {
    if (!to.isAfter(from)) {
      throw new IllegalArgumentException(
          "%s bill ends %s, not after its start %s; give the first day no longer billed"
              .formatted(service.code(), to, from));
    }
    if (units != null && units.signum() < 0) {
      throw new IllegalArgumentException(
          "%s bill from %s has %s units, below 0; give the units charged"
              .formatted(service.code(), from, units.toPlainString()));
    }
    if (creditAmount != null && creditAmount.signum() < 0) {
      throw new IllegalArgumentException(
          "%s bill from %s has a credit_amount of %s, below 0; give the credit as a positive amount"
              .formatted(service.code(), from, creditAmount.toPlainString()));
    }
  }
}
