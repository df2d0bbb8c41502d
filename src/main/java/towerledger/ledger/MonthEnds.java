package towerledger.ledger;

import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.job.Jobs;
import towerledger.query.Question;

/**
 * Leads months on: open → provisional when they end in the site's zone, provisional → closed ten
 * days later, or when the office says so. A month is closed only on figures that hold every fact
 * known: while its site waits to be reckoned it stays provisional.
 */
@Service
public class MonthEnds {

  private final JdbcClient jdbc;
  private final TransactionTemplate transaction;
  private final StaleSystems stale;
  private final Jobs jobs;
  private final ChangeHistory history;
  private final Clock clock;

  MonthEnds(
      JdbcClient jdbc,
      TransactionTemplate transaction,
      StaleSystems stale,
      Jobs jobs,
      ChangeHistory history,
      Clock clock) {
    this.jdbc = jdbc;
    this.transaction = transaction;
    this.stale = stale;
    this.jobs = jobs;
    this.history = history;
    this.clock = clock;
  }

  /**
   * What an order to close a month came to.
   *
   * @param closed systems whose month was closed
   * @param waiting systems left provisional because their site waits to be reckoned
   */
  public record Closing(int closed, int waiting) {}

  private record Unclosed(long siteId, YearMonth month, LedgerStatus status, ZoneId zone) {}

  /** Leads on every month whose time has come. */
  void leadOn() {
    Instant now = clock.instant();
    boolean ended = false;
    for (Unclosed row : unclosed(null)) {
      LedgerStatus due = LedgerStatus.byCalendar(row.month(), row.zone(), now);
      if (row.status() == LedgerStatus.OPEN && due != LedgerStatus.OPEN) {
        ended |= Boolean.TRUE.equals(transaction.execute(status -> end(row)));
      } else if (row.status() == LedgerStatus.PROVISIONAL && due == LedgerStatus.CLOSED) {
        transaction.execute(status -> close(row));
      }
    }
    if (ended) {
      jobs.submit(Reconciliations.KIND, null, null, "the calendar");
    }
  }

  /**
   * Closes a month before its ten days are over, for every system whose month has ended and whose
   * site is reckoned up to date.
   */
  public Closing close(YearMonth month, Actor actor) {
    int closed = 0;
    int waiting = 0;
    for (Unclosed row : unclosed(month)) {
      if (row.status() == LedgerStatus.PROVISIONAL) {
        int count = Objects.requireNonNull(transaction.execute(status -> close(row)));
        closed += count;
        waiting += count == 0 ? 1 : 0;
      }
    }
    if (closed > 0) {
      history.record(actor, "closed", "month", month.toString(), null, null, null);
    }
    return new Closing(closed, waiting);
  }

  /** How many systems have a month that is over and not yet closed, as a question. */
  public static Question<Integer> closable(YearMonth month) {
    return Question.rows(
            "SELECT COUNT(*) FROM ledger_month WHERE status = 'provisional' AND month_start = ?",
            List.of(month.atDay(1)),
            (row, number) -> row.getInt(1))
        .then(count -> count.get(0));
  }

  private boolean end(Unclosed row) {
    if (!stale.takesTurn(row.siteId())) {
      return false;
    }
    move(row, LedgerStatus.PROVISIONAL, null);
    for (long system : systems(row)) {
      stale.mark(system, row.month(), row.month(), "the month ended");
    }
    return true;
  }

  private int close(Unclosed row) {
    return stale.takesTurn(row.siteId()) && !stale.isStale(row.siteId())
        ? move(row, LedgerStatus.CLOSED, clock.instant())
        : 0;
  }

  private List<Unclosed> unclosed(@Nullable YearMonth month) {
    return jdbc.sql(
            """
            SELECT DISTINCT m.site_id, m.month_start, m.status, s.time_zone
            FROM ledger_month m JOIN site_site s ON s.id = m.site_id
            WHERE m.status IN ('open', 'provisional')
              AND m.month_start = COALESCE(CAST(:month AS DATE), m.month_start)
            ORDER BY m.month_start, m.site_id""")
        .param("month", month == null ? null : month.atDay(1))
        .query(
            (row, number) ->
                new Unclosed(
                    row.getLong(1),
                    YearMonth.from(row.getObject(2, LocalDate.class)),
                    LedgerStatus.ofCode(row.getString(3)),
                    ZoneId.of(row.getString(4))))
        .list();
  }

  private List<Long> systems(Unclosed row) {
    return jdbc.sql(
            "SELECT system_id FROM ledger_month WHERE site_id = :site AND month_start = :month")
        .param("site", row.siteId())
        .param("month", row.month().atDay(1))
        .query(Long.class)
        .list();
  }

  private int move(Unclosed row, LedgerStatus status, @Nullable Instant closedAt) {
    return jdbc.sql(
            """
            UPDATE ledger_month SET status = :status, closed_at = :closedAt
            WHERE site_id = :site AND month_start = :month AND status = :before""")
        .param("status", status.code())
        .param(
            "closedAt",
            closedAt == null ? null : OffsetDateTime.ofInstant(closedAt, ZoneOffset.UTC))
        .param("site", row.siteId())
        .param("month", row.month().atDay(1))
        .param("before", row.status().code())
        .update();
  }

  /** Looks at the calendar once an hour, on whichever node comes first. */
  @Configuration(proxyBeanMethods = false)
  static class Hourly {

    @Bean
    RecurringTask<Void> leadMonthsOn(MonthEnds ends) {
      return Tasks.recurring("ledger-lead-months-on", FixedDelay.ofHours(1))
          .execute((instance, context) -> ends.leadOn());
    }
  }
}
