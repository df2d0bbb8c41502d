package towerledger.finding;

import java.time.YearMonth;
import java.util.List;
import java.util.Optional;
import towerledger.ledger.LedgerEntry;

/**
 * What the months since a repair show against the flagged months before it: unaccounted water a day
 * before, less unaccounted water a day since, times the days since.
 *
 * <p>The error of a mean is taken as that of one month: most of a month's doubt (heat load, meter)
 * is the same in every month, so that more months do not average it away. Before and after are
 * taken as independent, though the same doubt is in both: a saving is called verified rather too
 * late than too soon.
 *
 * @param months whole months since the repair
 * @param litres the saving in all of them
 * @param status what that proves
 */
record Saving(int months, Range litres, FindingStatus status) {

  private static final double SIGMAS_OF_INTERVAL = 1.959964;

  /** A repair that is ruled out to have stopped this share of the loss stopped nothing. */
  private static final double WORTH_CALLING_A_SAVING = 0.5;

  /**
   * The saving since a repair.
   *
   * @param episode flagged months
   * @param standing all rows of the system, in order
   * @param repaired month of the repair; it counts neither before nor after
   * @return empty while no whole month since the repair has a figure, or none before it
   */
  static Optional<Saving> since(Episode episode, List<LedgerEntry> standing, YearMonth repaired) {
    Optional<Daily> before =
        Daily.mean(episode.rows().stream().filter(row -> row.month().isBefore(repaired)).toList());
    List<LedgerEntry> since =
        standing.stream()
            .filter(row -> row.month().isAfter(repaired) && row.water().unaccounted() != null)
            .toList();
    Optional<Daily> after = Daily.mean(since);
    if (before.isEmpty() || after.isEmpty()) {
      return Optional.empty();
    }
    int days = since.stream().mapToInt(row -> row.month().lengthOfMonth()).sum();
    double value = (before.get().litres() - after.get().litres()) * days;
    double half = SIGMAS_OF_INTERVAL * Math.hypot(before.get().sigma(), after.get().sigma()) * days;
    Range litres = new Range(value, value - half, value + half);
    double full = before.get().litres() * days;
    FindingStatus status =
        litres.low() > 0
            ? FindingStatus.VERIFIED
            : litres.high() < WORTH_CALLING_A_SAVING * full
                ? FindingStatus.NO_SAVING_SEEN
                : FindingStatus.NOT_YET_PROVABLE;
    return Optional.of(new Saving(since.size(), litres, status));
  }

  /** Unaccounted water of a day with its standard uncertainty. */
  private record Daily(double litres, double sigma) {

    static Optional<Daily> mean(List<LedgerEntry> rows) {
      double litres = 0;
      double sigma = 0;
      int days = 0;
      for (LedgerEntry row : rows) {
        Double value = row.water().unaccounted();
        Double low = row.water().unaccountedLow();
        Double high = row.water().unaccountedHigh();
        if (value != null && low != null && high != null) {
          litres += value;
          sigma += (high - low) / (2 * SIGMAS_OF_INTERVAL);
          days += row.month().lengthOfMonth();
        }
      }
      return days == 0 ? Optional.empty() : Optional.of(new Daily(litres / days, sigma / days));
    }
  }
}
