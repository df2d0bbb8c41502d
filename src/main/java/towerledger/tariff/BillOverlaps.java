package towerledger.tariff;

import java.time.LocalDate;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Whether two bills of a site for one service claim the same day. */
@Component
public class BillOverlaps {

  private final JdbcClient jdbc;

  BillOverlaps(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /**
   * The days of a bill.
   *
   * @param from first day covered
   * @param to first day no longer covered
   */
  public record Days(LocalDate from, LocalDate to) {}

  /**
   * Another stored bill that covers a day of the span; the one with the same first day is itself.
   */
  public Optional<Days> find(long siteId, String service, LocalDate from, LocalDate to) {
    return jdbc.sql(
            """
            SELECT from_date, to_date FROM tariff_utility_bill
            WHERE site_id = :site AND service = :service AND from_date <> :from
              AND from_date < :to AND to_date > :from
            ORDER BY from_date FETCH FIRST 1 ROW ONLY""")
        .param("site", siteId)
        .param("service", service)
        .param("from", from)
        .param("to", to)
        .query(
            (row, n) ->
                new Days(row.getObject(1, LocalDate.class), row.getObject(2, LocalDate.class)))
        .optional();
  }
}
