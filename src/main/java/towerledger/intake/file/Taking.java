package towerledger.intake.file;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import towerledger.account.Actor;
import towerledger.account.EmptyValues;
import towerledger.bulk.BulkLoad;
import towerledger.bulk.BulkLoader;
import towerledger.bulk.BulkTable;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Moment;
import towerledger.intake.csv.RowProblem;

/** One file being taken: who hands it in, what its codes stand for, where its rows go. */
public final class Taking {

  private static final Duration AHEAD = Duration.ofDays(366);

  private final Actor actor;
  private final Directory directory;
  private final Instant startedAt;
  private final Instant latest;
  private final boolean repeated;
  private final EmptyValues empty;
  private final BulkLoader loader;
  private final Map<BulkTable, BulkLoad> loads = new HashMap<>();
  private long references;

  /**
   * A file about to be taken.
   *
   * @param repeated whether the same file came before, whole or in part
   * @param empty what an empty cell says of a thing that is there
   */
  public Taking(
      Actor actor,
      Directory directory,
      Instant startedAt,
      boolean repeated,
      EmptyValues empty,
      BulkLoader loader) {
    this.actor = actor;
    this.directory = directory;
    this.startedAt = startedAt;
    this.latest = startedAt.plus(AHEAD);
    this.repeated = repeated;
    this.empty = empty;
    this.loader = loader;
  }

  public Actor actor() {
    return actor;
  }

  public Directory directory() {
    return directory;
  }

  /** The one customer whose things the sender may see; null if there is no such limit. */
  public @Nullable Long customerId() {
    return directory.customerId();
  }

  public Instant startedAt() {
    return startedAt;
  }

  /**
   * When something was read, taken or measured.
   *
   * @throws RowProblem when it lies more than a year ahead: the year was mistyped, and such a
   *     reading would stand as the meter's last. Clocks and zones that are somewhat off are no
   *     reason to refuse
   */
  Instant happened(Column column, Moment at) {
    if (at.instant().isAfter(latest)) {
      throw RowProblem.of(
          "%s %s lies more than a year ahead; correct the date", column.name(), at.instant());
    }
    return at.instant();
  }

  EmptyValues empty() {
    return empty;
  }

  /** A name for the next row under which its outcome comes back. */
  String nextReference() {
    return Long.toString(++references);
  }

  BulkLoad load(BulkTable table) {
    return loads.computeIfAbsent(table, t -> loader.open(t, repeated));
  }
}
