package towerledger.finding;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.Currency;
import java.util.List;
import towerledger.balance.Cause;
import towerledger.balance.EvidenceGrade;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerMoney;
import towerledger.ledger.LedgerStatus;
import towerledger.ledger.LedgerVerdict;
import towerledger.ledger.LedgerWater;

/** Ledger rows with round figures for tests of findings. */
final class Months {

  static final YearMonth JANUARY = YearMonth.of(2026, 1);

  private Months() {}

  /**
   * A month.
   *
   * @param number 1 for January 2026
   * @param unaccounted litres nothing explains
   * @param half half-width of its 95 % interval
   * @param causes causes that cannot be told apart; none for a sound month
   */
  static LedgerEntry month(int number, double unaccounted, double half, Cause... causes) {
    boolean flagged = causes.length > 0;
    boolean waste = flagged && causes[0].wastesWater();
    double makeup = 100_000 + unaccounted;
    return new LedgerEntry(
        new LedgerEntry.Of(1, "T-1", "Tower 1", "S-1", "Roof", "C-1", "Customer"),
        JANUARY.plusMonths(number - 1L),
        1,
        LedgerStatus.CLOSED,
        "test",
        "test",
        Instant.EPOCH,
        EvidenceGrade.A,
        new LedgerWater(
            makeup,
            100_000.0,
            100_000 - half,
            100_000 + half,
            unaccounted,
            unaccounted - half,
            unaccounted + half,
            75_000.0,
            0.0,
            25_000.0,
            0.0,
            waste ? unaccounted : 0.0,
            0.0,
            0.0,
            0.0,
            waste ? 0.0 : unaccounted,
            null,
            null,
            waste ? unaccounted : 0.0,
            waste ? unaccounted - half : 0.0,
            waste ? unaccounted + half : 0.0,
            4.0,
            4.0),
        new LedgerVerdict(
            flagged,
            waste,
            flagged ? causes[0] : Cause.NONE,
            0.8,
            null,
            null,
            flagged ? Arrays.asList(causes) : List.of(Cause.NONE),
            null),
        new LedgerMoney(
            Currency.getInstance("USD"),
            waste ? BigDecimal.valueOf(unaccounted / 100) : null,
            waste ? BigDecimal.valueOf((unaccounted - half) / 100) : null,
            waste ? BigDecimal.valueOf((unaccounted + half) / 100) : null,
            null,
            null,
            null));
  }
}
