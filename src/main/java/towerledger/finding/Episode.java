package towerledger.finding;

import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.ledger.LedgerEntry;

/**
 * Flagged months of one system that belong together: no more than one unflagged month between two
 * of them, and causes that overlap.
 *
 * @param rows the flagged months, in order; not empty
 */
record Episode(List<LedgerEntry> rows) {

  private static final int LONGEST_STEP = 2;
  private static final int MONTHS_OF_A_YEAR = 12;

  Episode {
    rows = List.copyOf(rows);
    if (rows.isEmpty()) {
      throw new IllegalArgumentException("an episode has at least one month");
    }
  }

  /** The episodes of a system's standing rows, which are in order. */
  static List<Episode> of(List<LedgerEntry> standing) {
    List<List<LedgerEntry>> found = new ArrayList<>();
    for (LedgerEntry row : standing) {
      if (!row.verdict().flagged() || !names(row)) {
        continue;
      }
      Optional<List<LedgerEntry>> goesOn =
          found.stream().filter(episode -> continues(episode, row)).reduce((a, b) -> b);
      if (goesOn.isPresent()) {
        goesOn.get().add(row);
      } else {
        found.add(new ArrayList<>(List.of(row)));
      }
    }
    return found.stream().map(Episode::new).toList();
  }

  private static boolean names(LedgerEntry row) {
    Cause cause = row.verdict().likeliest();
    return cause != Cause.NONE && cause != Cause.MISSING_DATA;
  }

  private static boolean continues(List<LedgerEntry> episode, LedgerEntry row) {
    LedgerEntry last = episode.get(episode.size() - 1);
    return last.month().until(row.month(), ChronoUnit.MONTHS) <= LONGEST_STEP
        && overlap(new Episode(episode).causes(), weighed(row));
  }

  static boolean overlap(Set<Cause> some, Set<Cause> others) {
    return some.stream().anyMatch(others::contains);
  }

  private static Set<Cause> weighed(LedgerEntry row) {
    Set<Cause> causes = new LinkedHashSet<>(row.verdict().causeSet());
    causes.add(row.verdict().likeliest());
    return causes;
  }

  /** Every cause that a month of it names. */
  Set<Cause> causes() {
    Set<Cause> causes = new LinkedHashSet<>();
    rows.forEach(row -> causes.addAll(weighed(row)));
    return causes;
  }

  YearMonth first() {
    return rows.get(0).month();
  }

  YearMonth last() {
    return newest().month();
  }

  LedgerEntry newest() {
    return rows.get(rows.size() - 1);
  }

  boolean waste() {
    return rows.stream().anyMatch(row -> row.verdict().waste());
  }

  /**
   * Extra water of a year that goes on like the episode, its unflagged months counting as nothing;
   * what nobody can overlook for long, a valve wide open, is taken to happen once a year. Empty
   * where no loss is known.
   */
  Optional<Range> yearlyLitres() {
    return yearly(
        row -> row.water().loss(), row -> row.water().lossLow(), row -> row.water().lossHigh());
  }

  /** Its cost, in the currency of the rows. */
  Optional<Range> yearlyAmount() {
    return yearly(
        row -> number(row.money().lossAmount()),
        row -> number(row.money().lossLow()),
        row -> number(row.money().lossHigh()));
  }

  private static @Nullable Double number(java.math.@Nullable BigDecimal amount) {
    return amount == null ? null : amount.doubleValue();
  }

  /** The bounds are averaged, not narrowed: most of a month's doubt is the same in every month. */
  private Optional<Range> yearly(
      Function<LedgerEntry, @Nullable Double> value,
      Function<LedgerEntry, @Nullable Double> low,
      Function<LedgerEntry, @Nullable Double> high) {
    OptionalDouble middle = mean(value);
    OptionalDouble least = mean(low);
    OptionalDouble most = mean(high);
    if (middle.isEmpty() || least.isEmpty() || most.isEmpty()) {
      return Optional.empty();
    }
    double v = middle.getAsDouble();
    return Optional.of(
        new Range(v, Math.min(v, least.getAsDouble()), Math.max(v, most.getAsDouble()))
            .times(monthsOfAYear()));
  }

  /** How many months of a year lose like the mean wasteful one. */
  private double monthsOfAYear() {
    long wasteful = rows.stream().filter(row -> row.verdict().waste()).count();
    if (newest().verdict().likeliest() == Cause.FILL_VALVE_STUCK_OPEN) {
      return Math.min(wasteful, MONTHS_OF_A_YEAR);
    }
    long months = first().until(last(), ChronoUnit.MONTHS) + 1;
    return (double) MONTHS_OF_A_YEAR * wasteful / months;
  }

  private OptionalDouble mean(Function<LedgerEntry, @Nullable Double> figure) {
    return rows.stream()
        .filter(row -> row.verdict().waste())
        .map(figure)
        .filter(java.util.Objects::nonNull)
        .mapToDouble(Double::doubleValue)
        .average();
  }

  /** Price of the wasted water at the margin, money a litre; empty where nothing is priced. */
  OptionalDouble pricePerLitre() {
    Optional<Range> litres = yearlyLitres();
    Optional<Range> amount = yearlyAmount();
    return litres.isPresent() && amount.isPresent() && litres.get().value() > 0
        ? OptionalDouble.of(amount.get().value() / litres.get().value())
        : OptionalDouble.empty();
  }
}
