package towerledger.simulation;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;

/**
 * Consecutive hours that a simulation walks through.
 *
 * @param start first instant, on a full hour
 * @param hours how many hours
 */
public record HourGrid(Instant start, int hours) {

  /** Whole local days, preceded by a run-in during which basins and moods settle. */
  public static HourGrid of(LocalDate from, LocalDate toExclusive, int runInDays, ZoneId zone) {
    Instant first = from.minusDays(runInDays).atStartOfDay(zone).toInstant();
    Instant end = toExclusive.atStartOfDay(zone).toInstant();
    return new HourGrid(first, (int) ((end.getEpochSecond() - first.getEpochSecond()) / 3600));
  }

  public Instant at(int hour) {
    return start.plusSeconds(3600L * hour);
  }

  /** Index of the hour that holds an instant; it may lie outside the grid. */
  public int indexOf(Instant instant) {
    return (int) Math.floorDiv(instant.getEpochSecond() - start.getEpochSecond(), 3600L);
  }

  /** Position of an instant in hours since the start, fractions included. */
  public double position(Instant instant) {
    return (instant.getEpochSecond() - start.getEpochSecond()) / 3600.0;
  }
}
