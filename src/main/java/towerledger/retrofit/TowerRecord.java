package towerledger.retrofit;

import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.ledger.LedgerEntry;

/**
 * What a system's own record says a measure could have saved in the last twelve months of its
 * ledger, in the money of its rates.
 */
public final class TowerRecord {

  private static final int MONTHS = 12;
  private static final double SIGMAS_OF_INTERVAL = 1.959964;

  /** How far evaporation and the price of a saved unit may be off together, a judgement. */
  private static final double CYCLES_DOUBT = 0.15;

  private static final Set<Cause> LEVEL =
      EnumSet.of(
          Cause.FILL_VALVE_LEAKING_BY,
          Cause.FILL_VALVE_STUCK_OPEN,
          Cause.OVERFLOW_ON_SHUTDOWN,
          Cause.LEVEL_SET_HIGH);
  private static final Set<Cause> PRESSURE =
      EnumSet.of(Cause.FILL_VALVE_LEAKING_BY, Cause.FILL_VALVE_STUCK_OPEN);

  private final List<LedgerEntry> rows;

  /** From the rows of a system, in order; the last twelve count. */
  public TowerRecord(List<LedgerEntry> all) {
    this.rows = List.copyOf(all.subList(Math.max(0, all.size() - MONTHS), all.size()));
  }

  /**
   * What could have been saved.
   *
   * @param months months it rests on
   * @param value amount of a year, best estimate
   * @param sigma its standard uncertainty
   */
  public record Basis(int months, double value, double sigma) {}

  /**
   * The basis of a measure.
   *
   * @param cycles cycles aimed at; for {@link Measure#CYCLES} alone
   * @return empty where the record does not say
   */
  public Optional<Basis> of(Measure measure, double cycles) {
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    return switch (measure) {
      case LEVEL_CONTROL -> losses(LEVEL);
      case REGULATOR -> losses(PRESSURE);
      case SUBMETERS -> credits();
      case CYCLES -> cycles(cycles);
    };
  }

  private Optional<Basis> losses(Set<Cause> causes) {
    double value = 0;
    double sigma = 0;
    int priced = 0;
    for (LedgerEntry row : rows) {
      if (row.water().makeup() == null) {
        continue;
      }
      BigDecimal amount = row.money().lossAmount();
      if (!row.verdict().waste() || !causes.contains(row.verdict().likeliest())) {
        priced++;
      } else if (amount != null) {
        priced++;
        value += amount.doubleValue();
        sigma += half(row) / SIGMAS_OF_INTERVAL;
      }
    }
    return yearly(priced, value, sigma);
  }

  private static double half(LedgerEntry row) {
    BigDecimal low = row.money().lossLow();
    BigDecimal high = row.money().lossHigh();
    return low == null || high == null ? 0 : high.subtract(low).doubleValue() / 2;
  }

  private Optional<Basis> credits() {
    double value = 0;
    int known = 0;
    for (LedgerEntry row : rows) {
      BigDecimal unclaimed = row.creditUnclaimed();
      if (unclaimed != null) {
        known++;
        value += unclaimed.doubleValue();
      }
    }
    return yearly(known, value, value * CYCLES_DOUBT);
  }

  /** Bleed at today's target less bleed at another: E/(C−1) − E/(C′−1). */
  private Optional<Basis> cycles(double aimed) {
    double value = 0;
    int known = 0;
    for (LedgerEntry row : rows) {
      Double evaporation = row.water().evaporation();
      Double now = row.water().targetCycles();
      Double price = price(row);
      if (evaporation != null && now != null && price != null && now > 1 && aimed > 1) {
        known++;
        value += price * Math.max(0, evaporation / (now - 1) - evaporation / (aimed - 1));
      }
    }
    return yearly(known, value, value * CYCLES_DOUBT);
  }

  private static @Nullable Double price(LedgerEntry row) {
    BigDecimal amount = row.money().expectedWaterAmount();
    Double litres = row.water().expectedMakeup();
    return amount == null || litres == null || litres <= 0 ? null : amount.doubleValue() / litres;
  }

  /**
   * A record shorter than a year is stretched to one; months of it without a figure, as of a tower
   * laid up, add nothing.
   */
  private Optional<Basis> yearly(int months, double value, double sigma) {
    if (months == 0) {
      return Optional.empty();
    }
    double stretch = (double) MONTHS / rows.size();
    return Optional.of(new Basis(months, value * stretch, sigma * stretch));
  }
}
