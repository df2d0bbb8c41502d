package towerledger;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.springframework.boot.test.context.TestComponent;
import towerledger.account.Actor;
import towerledger.tariff.ScheduleRows;
import towerledger.tariff.Schedules;

/**
 * Keeps an invented water schedule for tests of pages: 12.00 a bill, 3.50 a ccf, 5.00 above 100.
 */
@TestComponent
public class RatesForPages {

  private static final LocalDate FROM = LocalDate.of(2026, 1, 1);

  private final Schedules schedules;

  RatesForPages(Schedules schedules) {
    this.schedules = schedules;
  }

  /** Keeps it under a code, from 2026 on. */
  public void keep(String code) {
    schedules.take(
        Actor.system("test"),
        new ScheduleRows(
            List.of(version(code)),
            List.of(
                new ScheduleRows.ChargeRow(
                    "2", code, FROM, "service", null, new BigDecimal("12.00"))),
            List.of(block("3", code, "0", "3.50"), block("4", code, "100", "5.00"))));
  }

  private static ScheduleRows.VersionRow version(String code) {
    return new ScheduleRows.VersionRow(
        "1",
        code,
        "water",
        FROM,
        "ccf",
        "Water of " + code,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null);
  }

  private static ScheduleRows.BlockRow block(
      String reference, String code, String fromUnits, String rate) {
    return new ScheduleRows.BlockRow(
        reference, code, FROM, null, null, null, new BigDecimal(fromUnits), new BigDecimal(rate));
  }
}
