package towerledger.finding;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import towerledger.balance.Cause;

/**
 * Something wrong with a system that somebody is to look at.
 *
 * @param id its number
 * @param version counts the changes; an edit names the version it started from
 * @param of whose it is
 * @param status how far it has come
 * @param causeSet causes the evidence cannot separate, likeliest first
 * @param likeliest likeliest cause
 * @param probability its probability, 0–1, as of the newest flagged month
 * @param waste whether water is lost
 * @param first first month flagged
 * @param last newest month flagged
 * @param onset month in which it began, as now seen
 * @param onsetAt begin to the hour, where interval data show it
 * @param detectedAt instant of the last fact the first verdict needed
 * @param lossSince litres lost since the onset
 * @param currency currency of the money
 * @param yearlyLitres extra water of a year that goes on like the flagged months
 * @param yearlyAmount its cost: what a repair is expected to save a year
 * @param assignee who is to look
 * @param openedAt when it was opened
 * @param workedAt when work was done
 * @param saved what the months since show; empty before one has passed
 */
public record Finding(
    long id,
    long version,
    Of of,
    FindingStatus status,
    List<Cause> causeSet,
    Cause likeliest,
    double probability,
    boolean waste,
    YearMonth first,
    YearMonth last,
    Optional<YearMonth> onset,
    Optional<Instant> onsetAt,
    Optional<Instant> detectedAt,
    Optional<Range> lossSince,
    Currency currency,
    Optional<Range> yearlyLitres,
    Optional<Range> yearlyAmount,
    Optional<Assignee> assignee,
    Instant openedAt,
    Optional<Instant> workedAt,
    Optional<Saved> saved) {

  public Finding {
    causeSet = List.copyOf(causeSet);
  }

  /** When the fault began, as exactly as is known: at the latest with its first flagged month. */
  public Instant began() {
    return onsetAt.orElseGet(
        () -> onset.orElse(first).atDay(1).atStartOfDay(ZoneId.of(of.zone)).toInstant());
  }

  /** Whose finding it is: codes and names, and the zone of the site. */
  public record Of(
      String system,
      String systemName,
      long siteId,
      String site,
      String siteName,
      String customer,
      String customerName,
      String zone) {}

  /** Somebody who is to look. */
  public record Assignee(long id, String name) {}

  /**
   * The saving since the work.
   *
   * @param months whole months since
   * @param litres saved in all of them
   * @param amount their worth; empty where the loss was never priced
   */
  public record Saved(int months, Range litres, Optional<Range> amount) {}

  /**
   * One thing that happened to a finding.
   *
   * @param at when
   * @param actor who
   * @param kind {@code opened}, {@code assigned}, {@code note}, {@code worked}, …
   * @param note words; may be empty
   */
  public record Step(Instant at, String actor, String kind, String note) {}
}
