package towerledger.ledger;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.Timestamp;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.JdbcTemplate;
import towerledger.balance.BudgetLine;
import towerledger.balance.Cause;
import towerledger.balance.CauseOpinion;
import towerledger.balance.EvidenceGrade;
import towerledger.balance.VolumeEstimate;
import towerledger.balance.WorkingStep;

/**
 * A portfolio of any size with invented customers, written straight into the ledger: for looking at
 * pages and for measuring them, not for judging the model.
 */
public final class InventedPortfolio {

  private static final String[] CUSTOMERS = {
    "Alder Point Hospital", "Brightwater Offices", "Cobalt Yard Data Hall", "Dunmore College",
    "Eastgate Hotel", "Fallow Creek Dairy", "Granite Row Labs", "Harrow Street Mall"
  };
  private static final String[] SITES = {"Main plant", "North roof", "Annex", "West yard"};
  private static final Cause[] CAUSES = {
    Cause.FILL_VALVE_LEAKING_BY,
    Cause.BLOWDOWN_STUCK_OPEN,
    Cause.OVERFLOW_ON_SHUTDOWN,
    Cause.MAKEUP_LINE_LEAK,
    Cause.MAKEUP_METER_ERROR,
    Cause.LOW_CYCLES
  };
  private static final Currency USD = Currency.getInstance("USD");

  private final String prefix;
  private final JdbcTemplate jdbc;
  private final Revisions revisions;
  private final ApplicationContext events;
  private final Random random = new Random(20261101);

  /**
   * A portfolio in the database of an application.
   *
   * @param prefix how the codes of its customers, sites and systems begin
   */
  public InventedPortfolio(ApplicationContext context, String prefix) {
    this.prefix = prefix;
    this.jdbc = context.getBean(JdbcTemplate.class);
    this.events = context;
    this.revisions = context.getBean(Revisions.class);
  }

  /** Writes systems with their months. */
  public void write(int systems, YearMonth first, YearMonth last) {
    int customers = Math.max(1, Math.min(systems / 4, 400));
    for (int c = 0; c < customers; c++) {
      jdbc.update(
          "INSERT INTO account_customer (code, name, currency, created_at) VALUES (?, ?, 'USD', ?)",
          prefix + "C" + c,
          CUSTOMERS[c % CUSTOMERS.length] + (c < CUSTOMERS.length ? "" : " " + (c / 8 + 1)),
          Timestamp.from(Instant.EPOCH));
    }
    List<Object[]> sites = new ArrayList<>();
    for (int s = 0; s < systems; s++) {
      sites.add(new Object[] {prefix + "S" + s, prefix + "C" + s % customers, SITES[s % 4]});
    }
    jdbc.batchUpdate(
        """
        INSERT INTO site_site (code, customer_id, name, time_zone, created_at)
        SELECT ?, id, ?, 'America/Chicago', CURRENT_TIMESTAMP FROM account_customer WHERE code = ?\
        """,
        sites.stream().map(s -> new Object[] {s[0], s[2], s[1]}).toList());
    jdbc.batchUpdate(
        """
        INSERT INTO site_system (code, site_id, customer_id, name, created_at)
        SELECT ?, id, customer_id, ?, CURRENT_TIMESTAMP FROM site_site WHERE code = ?\
        """,
        sites.stream()
            .map(
                s ->
                    new Object[] {
                      prefix + "T" + ((String) s[0]).substring(prefix.length() + 1),
                      "Tower " + ((String) s[0]).substring(prefix.length() + 1),
                      s[0]
                    })
            .toList());
    List<long[]> keys =
        jdbc.query(
            "SELECT id, site_id, customer_id FROM site_system WHERE code LIKE ? ORDER BY id",
            (row, n) -> new long[] {row.getLong(1), row.getLong(2), row.getLong(3)},
            prefix + "T%");
    List<NewRevision> rows = new ArrayList<>();
    for (long[] key : keys) {
      rows.addAll(months(key, first, last));
      if (rows.size() > 20_000) {
        revisions.append(rows, Map.of(), "invented", false);
        rows.clear();
      }
    }
    revisions.append(rows, Map.of(), "invented", false);
    for (long site : keys.stream().mapToLong(key -> key[1]).distinct().toArray()) {
      events.publishEvent(new MonthsReckoned(site));
    }
  }

  /** Sums anew what pages show, after rows were put in past the ledger. */
  public void sum() {
    events
        .getBean(SlotSums.class)
        .renew(
            jdbc.query(
                "SELECT DISTINCT site_id, month_start FROM ledger_month",
                (row, number) ->
                    new SlotSums.SiteMonth(
                        row.getLong(1), YearMonth.from(row.getDate(2).toLocalDate()))));
  }

  private List<NewRevision> months(long[] key, YearMonth first, YearMonth last) {
    double size = 150_000 * Math.exp(random.nextGaussian() * 0.9);
    Cause fault = random.nextDouble() < 0.3 ? CAUSES[random.nextInt(CAUSES.length)] : Cause.NONE;
    boolean metered = random.nextDouble() > 0.06;
    EvidenceGrade grade = EvidenceGrade.values()[random.nextInt(4)];
    int length = (int) first.until(last, java.time.temporal.ChronoUnit.MONTHS) + 1;
    int onset = length - 1 - random.nextInt(10);
    List<NewRevision> rows = new ArrayList<>();
    for (int m = 0; m < length; m++) {
      rows.add(
          month(key, first.plusMonths(m), size, m >= onset ? fault : Cause.NONE, metered, grade));
    }
    return rows;
  }

  private NewRevision month(
      long[] key, YearMonth month, double size, Cause cause, boolean metered, EvidenceGrade grade) {
    double season = 1 + 0.55 * Math.cos((month.getMonthValue() - 7) * Math.PI / 6);
    double evaporation = size * 3.785 * season * (1 + 0.05 * random.nextGaussian());
    double drift = evaporation * 0.004;
    double needed = evaporation / 3 - drift;
    double expected = evaporation + drift + needed;
    double sigma = new double[] {0.05, 0.08, 0.14, 0.2}[grade.ordinal()];
    double half = 1.96 * sigma * expected * 0.7;
    double loss = cause.wastesWater() ? expected * (0.12 + 0.2 * random.nextDouble()) : 0;
    double noise = expected * sigma * 0.3 * random.nextGaussian();
    double correction = cause == Cause.MAKEUP_METER_ERROR ? -0.11 * expected : 0;
    boolean fresh = cause == Cause.FILL_VALVE_LEAKING_BY || cause == Cause.MAKEUP_LINE_LEAK;
    double storage = random.nextDouble() < 0.08 ? expected * 0.03 : 0;
    double makeup = expected + loss + noise + correction + storage;
    double unaccounted = makeup - expected - storage;
    LedgerWater water =
        metered
            ? new LedgerWater(
                makeup,
                expected,
                expected - half,
                expected + half,
                unaccounted,
                unaccounted - half,
                unaccounted + half,
                evaporation,
                drift,
                needed,
                fresh ? 0.0 : loss,
                fresh ? loss : 0.0,
                0.0,
                storage,
                correction,
                noise,
                needed + (fresh ? 0 : loss),
                loss * 1.2,
                loss,
                Math.max(0, loss - half * 0.6),
                loss + half * 0.6,
                fresh || loss == 0 ? 4.0 + 0.1 * random.nextGaussian() : 2.9,
                4.0)
            : new LedgerWater(
                null,
                expected,
                expected - half,
                expected + half,
                null,
                null,
                null,
                evaporation,
                drift,
                needed,
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
                null,
                4.0);
    Cause said = metered ? cause : Cause.MISSING_DATA;
    boolean flagged = said != Cause.NONE && metered;
    double perLitre = 0.0034;
    LedgerVerdict verdict =
        new LedgerVerdict(
            flagged,
            flagged && said.wastesWater(),
            said,
            flagged ? 0.55 + 0.4 * random.nextDouble() : 0.95,
            flagged ? Cause.BASIN_LEAK : null,
            flagged ? 0.04 : null,
            said == Cause.BLOWDOWN_STUCK_OPEN
                ? List.of(said, Cause.OVERFLOW_ON_SHUTDOWN, Cause.DRIFT_EXCESS)
                : List.of(said),
            flagged
                ? month.plusMonths(1).atDay(3).atStartOfDay().toInstant(java.time.ZoneOffset.UTC)
                : null);
    LedgerMoney money =
        new LedgerMoney(
            USD,
            metered ? money(loss * perLitre) : null,
            metered ? money(Math.max(0, loss - half * 0.6) * perLitre) : null,
            metered ? money((loss + half * 0.6) * perLitre) : null,
            money(expected * perLitre),
            money((evaporation + drift) * 0.0015),
            random.nextDouble() < 0.5 ? money(evaporation * 0.001) : null);
    return new NewRevision(
        key[2],
        key[1],
        key[0],
        month,
        LedgerStatus.CLOSED,
        "0.0-invented",
        "0".repeat(64),
        grade,
        water,
        verdict,
        money,
        working(said, expected, loss, half));
  }

  private static MonthWorking working(Cause cause, double expected, double loss, double half) {
    return new MonthWorking(
        List.of(
            new WorkingStep("heat rejected", 812_000, "kWh", "", "chiller kWh × (1 + kW/ton)"),
            new WorkingStep(
                "evaporation", expected * 0.75, "L", "Poppe by the hour", "weather station")),
        List.of(
            new BudgetLine("heat load", 0.08, half * 0.45, "chiller electricity, 8 % (invented)"),
            new BudgetLine("makeup meter", 0.015, half * 0.1, "accuracy class")),
        List.of(
            new CauseOpinion(
                cause, 0.9, List.of("flow while the tower is off"), List.of("cycles unchanged"))),
        List.of("air to water ratio 1.2 at design"),
        cause == Cause.NONE
            ? List.of()
            : List.of("a blowdown meter would separate bleed from overflow"),
        cause == Cause.NONE ? null : YearMonth.of(2026, 6),
        null,
        cause == Cause.NONE ? null : VolumeEstimate.ofLitres(loss * 4, loss * 2.5, loss * 5.5),
        List.of("water 3.34 USD a ccf on the last block", "sewer 6.10 USD a ccf"),
        VolumeEstimate.ofLitres(expected * 0.75, expected * 0.72, expected * 0.78));
  }

  private static @Nullable BigDecimal money(double amount) {
    return BigDecimal.valueOf(amount).setScale(2, RoundingMode.HALF_UP);
  }
}
