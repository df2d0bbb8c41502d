package towerledger.balance;

import java.time.Duration;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentMap;
import java.util.function.Function;
import towerledger.balance.facts.SystemFacts;
import towerledger.thermal.ResponseTable;
import towerledger.thermal.TowerDesign;

/**
 * Reconciles the months of one system. Each month is judged on the facts up to its end and on those
 * that reach beyond it (a reading taken late encloses it); later facts never change it. The same
 * facts and policy always give the same verdicts, whatever the order in which they came.
 */
public final class Reconciler {

  /** Version of the model, recorded with every revision. */
  public static final String MODEL_VERSION = "2.3";

  /** How long after its end a month still takes facts in. */
  public static final Duration CLOSE_AFTER = Duration.ofDays(10);

  private final ReconciliationPolicy policy;
  private final TowerTables tables;

  /** A reconciler that computes response tables itself and keeps them while it lives. */
  public Reconciler(ReconciliationPolicy policy) {
    this(policy, keptTables());
  }

  /**
   * A reconciler that is given its response tables.
   *
   * @param tables table of a design, kept wherever the caller keeps them; may be asked from several
   *     threads
   */
  public Reconciler(ReconciliationPolicy policy, Function<TowerDesign, ResponseTable> tables) {
    this.policy = policy;
    this.tables = new TowerTables(tables);
  }

  private static Function<TowerDesign, ResponseTable> keptTables() {
    ConcurrentMap<TowerDesign, ResponseTable> known = new ConcurrentHashMap<>();
    return design -> known.computeIfAbsent(design, ResponseTable::of);
  }

  /** The policy in force. */
  public ReconciliationPolicy policy() {
    return policy;
  }

  /**
   * Verdicts of consecutive months. Facts from before the first month are used: they calibrate the
   * system and may hold the onset of a fault; give all of them, so that a month comes out the same
   * whichever months are asked for.
   *
   * @param facts what is known of the system
   * @param first first month wanted
   * @param last last month wanted, not before the first
   * @return one verdict per month, in order
   */
  public List<MonthVerdict> judge(SystemFacts facts, YearMonth first, YearMonth last) {
    if (last.isBefore(first)) {
      throw new IllegalArgumentException(
          "last month %s is before the first, %s".formatted(last, first));
    }
    YearMonth begin = RecordSpan.firstMonth(facts).filter(m -> m.isBefore(first)).orElse(first);
    List<YearMonth> months = new ArrayList<>();
    for (YearMonth month = begin; !month.isAfter(last); month = month.plusMonths(1)) {
      months.add(month);
    }
    SystemPass pass = SystemPass.of(policy, tables, facts, List.copyOf(months));
    MonthAssembler assembler = new MonthAssembler(pass);
    int wanted = months.indexOf(first);
    List<MonthVerdict> verdicts = new ArrayList<>();
    pass.walk(
        posterior -> {
          if (posterior.month() >= wanted) {
            verdicts.add(assembler.assemble(posterior));
          }
        });
    return verdicts;
  }
}
