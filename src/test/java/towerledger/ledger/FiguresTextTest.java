package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import towerledger.balance.Cause;
import towerledger.balance.EvidenceGrade;

class FiguresTextTest {

  private static final Currency DOLLARS = Currency.getInstance("USD");

  @Test
  void figuresAreWrittenAsTheirRecordsPrintThemselves() {
    LedgerWater water =
        new LedgerWater(
            1000.0, 1 / 3.0, -0.0, 1e-9, 1e12, null, 6.5, 7.0, 8.0, 9.0, 10.0, 11.0, null, 13.0,
            14.0, 15.0, 16.0, 17.0, 18.0, 19.0, 20.0, 2.25, 5.4);
    LedgerVerdict verdict =
        new LedgerVerdict(
            true,
            false,
            Cause.NONE,
            0.875,
            Cause.MISSING_DATA,
            0.0625,
            List.of(Cause.NONE, Cause.MISSING_DATA),
            Instant.parse("2026-06-19T05:00:00Z"));
    LedgerMoney money =
        new LedgerMoney(
            DOLLARS,
            new BigDecimal("970.00"),
            new BigDecimal("-1E+3"),
            null,
            BigDecimal.ONE,
            BigDecimal.TEN,
            new BigDecimal("0.0001"));
    assertThat(FiguresText.of(EvidenceGrade.A, water, verdict, money))
        .isEqualTo(EvidenceGrade.A + "|" + water + "|" + verdict + "|" + money)
        .contains("targetCycles=5.4]|LedgerVerdict[flagged=true, ");
  }

  @Test
  void whatIsNotKnownIsWrittenLikewise() {
    LedgerWater water =
        new LedgerWater(
            null, null, null, null, null, null, null, null, null, null, null, null, null, null,
            null, null, null, null, null, null, null, null, null);
    LedgerVerdict verdict =
        new LedgerVerdict(false, true, Cause.MISSING_DATA, 1, null, null, List.of(), null);
    LedgerMoney money = LedgerMoney.unknown(Currency.getInstance(Locale.JAPAN));
    assertThat(FiguresText.of(null, water, verdict, money))
        .isEqualTo(null + "|" + water + "|" + verdict + "|" + money);
  }
}
