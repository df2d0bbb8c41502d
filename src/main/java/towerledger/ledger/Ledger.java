package towerledger.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.query.Question;
import towerledger.query.Questions;
import towerledger.site.CoolingSystem;
import towerledger.site.SiteAccess;

/** Reads the ledger: what stands, and every revision that ever stood. */
@Service
@Transactional(readOnly = true)
public class Ledger {

  /** No reading is taken from before it, so no row lies before it. */
  public static final YearMonth FIRST_MONTH = YearMonth.of(1990, 1);

  /**
   * All of a row but its working, which is as large as all the rest; in the order in which {@link
   * EntryRow} reads it.
   */
  static final String FIGURES =
      """
      SELECT r.system_id, y.code AS system_code, y.name AS system_name, s.code AS site_code,
        s.name AS site_name, c.code AS customer_code, c.name AS customer_name,
        r.month_start, r.revision, m.status AS standing_status, r.model_version, r.reason,
        r.created_at, r.evidence, r.makeup_l, r.expected_makeup_l, r.expected_low_l,
        r.expected_high_l, r.unaccounted_l, r.unaccounted_low_l, r.unaccounted_high_l,
        r.evaporation_l, r.drift_l, r.needed_blowdown_l, r.excess_loss_l, r.fresh_loss_l,
        r.other_use_l, r.storage_change_l, r.meter_correction_l, r.residual_l, r.blowdown_l,
        r.gross_loss_l, r.loss_l, r.loss_low_l, r.loss_high_l, r.cycles, r.target_cycles,
        r.flagged, r.waste, r.likeliest_cause, r.cause_probability, r.second_cause,
        r.second_probability, r.cause_set, r.detected_at, r.currency, r.loss_amount,
        r.loss_amount_low, r.loss_amount_high, r.expected_water_amount,
        r.evaporation_credit_amount, r.credit_claimed_amount
      """;

  static final String ENTRY =
      FIGURES
          + """
      FROM ledger_revision r
      JOIN ledger_month m ON m.system_id = r.system_id AND m.month_start = r.month_start
      JOIN site_system y ON y.id = r.system_id
      JOIN site_site s ON s.id = y.site_id
      JOIN account_customer c ON c.id = y.customer_id
      """;

  static final String STANDS = " r.revision = m.revision ";

  /** Nowhere does a month end earlier or later. */
  private static final ZoneOffset FIRST_TO_END = ZoneOffset.ofHours(14);

  private static final ZoneOffset LAST_TO_END = ZoneOffset.ofHours(-12);

  private final JdbcClient jdbc;
  private final Questions questions;
  private final SiteAccess access;
  private final WorkingCodec codec;
  private final Clock clock;

  Ledger(JdbcClient jdbc, Questions questions, SiteAccess access, WorkingCodec codec, Clock clock) {
    this.jdbc = jdbc;
    this.questions = questions;
    this.access = access;
    this.codec = codec;
    this.clock = clock;
  }

  /**
   * Hands the standing row of every visible system and month to a consumer, ordered by system and
   * month; nothing is held in memory.
   *
   * @param first first month, itself included
   * @param last last month, itself included
   * @param system one system's code; null for all
   */
  public void forEach(
      Viewer viewer,
      YearMonth first,
      YearMonth last,
      @Nullable String system,
      Consumer<LedgerEntry> consumer) {
    var scope = access.scope(viewer, "y.customer_id", "y.site_id");
    List<Object> parameters = new ArrayList<>(List.of(first.atDay(1), last.atDay(1)));
    String one = "";
    if (system != null) {
      Optional<CoolingSystem> found = access.findSystem(viewer, system);
      if (found.isEmpty()) {
        return;
      }
      one = " AND r.system_id = ?";
      parameters.add(found.get().id());
    }
    parameters.addAll(scope.parameters());
    try (Stream<LedgerEntry> rows =
        jdbc
            .sql(
                ENTRY
                    + "WHERE"
                    + STANDS
                    + "AND r.month_start >= ? AND r.month_start <= ?"
                    + one
                    + " AND "
                    + scope.sql()
                    + " ORDER BY y.code, r.month_start")
            .params(parameters)
            .query(Ledger::entry)
            .stream()) {
      rows.forEach(consumer);
    }
  }

  /** Standing rows of one system, oldest first. */
  public List<LedgerEntry> list(CoolingSystem system, YearMonth first, YearMonth last) {
    return jdbc.sql(
            ENTRY
                + "WHERE"
                + STANDS
                + "AND r.system_id = ? AND r.month_start >= ? AND r.month_start <= ?"
                + " ORDER BY r.month_start")
        .params(List.of(system.id(), first.atDay(1), last.atDay(1)))
        .query(Ledger::entry)
        .list();
  }

  /** The newest standing rows of one system, at most so many, oldest first. */
  public static Question<List<LedgerEntry>> newest(CoolingSystem system, int most) {
    return Question.rows(
            ENTRY
                + "WHERE"
                + STANDS
                + "AND r.system_id = ? ORDER BY r.month_start DESC FETCH FIRST ? ROWS ONLY",
            List.of(system.id(), most),
            Ledger::entry)
        .then(
            newestFirst -> {
              Collections.reverse(newestFirst);
              return newestFirst;
            });
  }

  /** The standing row of a month; empty when the month has none yet. */
  public Optional<LedgerEntry> find(CoolingSystem system, YearMonth month) {
    return list(system, month, month).stream().findFirst();
  }

  /** Every revision of a month, newest first. */
  public List<LedgerEntry> listRevisions(CoolingSystem system, YearMonth month) {
    return jdbc.sql(ENTRY + "WHERE r.system_id = ? AND r.month_start = ? ORDER BY r.revision DESC")
        .params(List.of(system.id(), month.atDay(1)))
        .query(Ledger::entry)
        .list();
  }

  /**
   * Visible months whose figures changed since an instant, each with the row that stood at that
   * instant; by system and month. A month that had no row then is new, not restated.
   */
  public List<Restatement> listRestated(Viewer viewer, Instant since) {
    var scope = access.scope(viewer, "y.customer_id", "y.site_id");
    OffsetDateTime at = OffsetDateTime.ofInstant(since, ZoneOffset.UTC);
    List<Object> parameters = new ArrayList<>(List.of(at, at));
    parameters.addAll(scope.parameters());
    List<LedgerEntry> rows =
        jdbc.sql(
                ENTRY
                    + """
                    WHERE EXISTS (SELECT 1 FROM ledger_revision n WHERE n.system_id = r.system_id
                        AND n.month_start = r.month_start AND n.revision = m.revision
                        AND n.created_at > ?)
                      AND (r.revision = m.revision OR r.created_at <= ?) AND
                    """
                    + scope.sql()
                    + " ORDER BY y.code, r.month_start, r.revision")
            .params(parameters)
            .query(Ledger::entry)
            .list();
    List<Restatement> restated = new ArrayList<>();
    for (int i = 1; i < rows.size(); i++) {
      LedgerEntry before = rows.get(i - 1);
      LedgerEntry after = rows.get(i);
      boolean last = i == rows.size() - 1 || !isSameMonth(after, rows.get(i + 1));
      if (last && isSameMonth(before, after)) {
        restated.add(new Restatement(before, after));
      }
    }
    return restated;
  }

  private static boolean isSameMonth(LedgerEntry a, LedgerEntry b) {
    return a.of().systemId() == b.of().systemId() && a.month().equals(b.month());
  }

  /** The derivation kept with a revision. */
  public Optional<MonthWorking> findWorking(CoolingSystem system, YearMonth month, int revision) {
    return questions.answer(working(system, month, revision));
  }

  /** The same as a question; there is no revision 0. */
  public Question<Optional<MonthWorking>> working(
      CoolingSystem system, YearMonth month, int revision) {
    return Question.rows(
            """
            SELECT working FROM ledger_revision
            WHERE system_id = ? AND month_start = ? AND revision = ?""",
            List.of(system.id(), month.atDay(1), revision),
            (row, number) -> row.getBytes(1))
        .then(found -> found.stream().findFirst().map(codec::read));
  }

  /**
   * The newest month that is over, of those that any visible system has a row for: what there is to
   * be read on the first days of a month. A month under way has rows as soon as one reading of it
   * is in; it is the answer where there is no other.
   */
  public Optional<YearMonth> findNewestEnded(Viewer viewer) {
    return findReach(viewer).map(reach -> newestEnded(viewer, reach.newest()));
  }

  /**
   * The same for who knows {@link #findReach the newest month} already. While a month is over at
   * some sites and not at others, the rows of those one may see tell whether it is.
   */
  public YearMonth newestEnded(Viewer viewer, YearMonth newest) {
    Instant now = clock.instant();
    if (newest.isBefore(YearMonth.from(now.atOffset(LAST_TO_END)))) {
      return newest;
    }
    boolean over =
        newest.isBefore(YearMonth.from(now.atOffset(FIRST_TO_END))) && hasEnded(viewer, newest);
    return over ? newest : newestBefore(viewer, newest).orElse(newest);
  }

  private boolean hasEnded(Viewer viewer, YearMonth month) {
    var scope = access.scope(viewer, "m.customer_id", "m.site_id");
    List<Object> parameters = new ArrayList<>(List.of(month.atDay(1), LedgerStatus.OPEN.code()));
    parameters.addAll(scope.parameters());
    // not SELECT EXISTS: H2 answered that from before a change of the rows
    return jdbc.sql(
            "SELECT m.system_id FROM ledger_month m WHERE m.month_start = ? AND m.status <> ? AND "
                + scope.sql()
                + " FETCH FIRST 1 ROW ONLY")
        .params(parameters)
        .query(Long.class)
        .optional()
        .isPresent();
  }

  /** The newest of a system's months that is over, else the newest; empty when there is none. */
  public static Optional<YearMonth> newestEnded(List<LedgerEntry> oldestFirst) {
    for (int i = oldestFirst.size() - 1; i >= 0; i--) {
      if (oldestFirst.get(i).status() != LedgerStatus.OPEN) {
        return Optional.of(oldestFirst.get(i).month());
      }
    }
    return oldestFirst.isEmpty()
        ? Optional.empty()
        : Optional.of(oldestFirst.get(oldestFirst.size() - 1).month());
  }

  private Optional<YearMonth> newestBefore(Viewer viewer, YearMonth month) {
    var scope = access.scope(viewer, "m.customer_id", "m.site_id");
    List<Object> parameters = new ArrayList<>(List.of(month.atDay(1)));
    parameters.addAll(scope.parameters());
    return jdbc.sql(
            "SELECT MAX(m.month_start) FROM ledger_month m WHERE m.month_start < ? AND "
                + scope.sql())
        .params(parameters)
        .query(LocalDate.class)
        .optional()
        .map(YearMonth::from);
  }

  /**
   * The months from the first to the last that any visible system has a row for.
   *
   * @param oldest the first
   * @param newest the last
   */
  public record Reach(YearMonth oldest, YearMonth newest) {

    /** Whether a month lies within. */
    public boolean holds(YearMonth month) {
      return !month.isBefore(oldest) && !month.isAfter(newest);
    }

    /** The month before another, or the nearest within; empty where there is none. */
    public Optional<YearMonth> before(YearMonth month) {
      YearMonth before = month.isAfter(newest) ? newest : month.minusMonths(1);
      return before.isBefore(oldest) ? Optional.empty() : Optional.of(before);
    }

    /** The month after another, or the nearest within; empty where there is none. */
    public Optional<YearMonth> after(YearMonth month) {
      YearMonth after = month.isBefore(oldest) ? oldest : month.plusMonths(1);
      return after.isAfter(newest) ? Optional.empty() : Optional.of(after);
    }

    /** The year before another, or the nearest within; empty where there is none. */
    public Optional<Integer> yearBefore(int year) {
      int before = Math.min(year - 1, newest.getYear());
      return before < oldest.getYear() ? Optional.empty() : Optional.of(before);
    }

    /** The year after another, or the nearest within; empty where there is none. */
    public Optional<Integer> yearAfter(int year) {
      int after = Math.max(year + 1, oldest.getYear());
      return after > newest.getYear() ? Optional.empty() : Optional.of(after);
    }
  }

  /** How far the ledger reaches for a viewer; empty where there is no row. */
  public Optional<Reach> findReach(Viewer viewer) {
    return questions.answer(reach(viewer));
  }

  /** The same as a question. */
  public Question<Optional<Reach>> reach(Viewer viewer) {
    var scope = access.scope(viewer, "m.customer_id", "m.site_id");
    return Question.rows(
            "SELECT MIN(m.month_start), MAX(m.month_start) FROM ledger_month m WHERE "
                + scope.sql(),
            scope.parameters(),
            (row, number) -> {
              LocalDate oldest = row.getObject(1, LocalDate.class);
              return oldest == null
                  ? Optional.<Reach>empty()
                  : Optional.of(
                      new Reach(
                          YearMonth.from(oldest),
                          YearMonth.from(row.getObject(2, LocalDate.class))));
            })
        .then(found -> found.get(0));
  }

  /** The first month that a customer's systems have a row for; empty where there is none. */
  public Optional<YearMonth> findOldestMonth(long customerId) {
    return jdbc.sql("SELECT MIN(m.month_start) FROM ledger_month m WHERE m.customer_id = ?")
        .param(customerId)
        .query(LocalDate.class)
        .optional()
        .map(YearMonth::from);
  }

  /**
   * Systems of a customer whose row for a month may still change, since facts of that month or an
   * earlier one wait to be reckoned.
   */
  public int countUnsettled(long customerId, YearMonth month) {
    return jdbc.sql(
            """
            SELECT COUNT(DISTINCT t.system_id) FROM ledger_stale t
            JOIN site_system y ON y.id = t.system_id
            WHERE y.customer_id = ? AND (t.first_month IS NULL OR t.first_month <= ?)""")
        .params(customerId, month.atDay(1))
        .query(Integer.class)
        .single();
  }

  static LedgerEntry entry(ResultSet row, int number) throws SQLException {
    return new EntryRow(row).read();
  }
}
