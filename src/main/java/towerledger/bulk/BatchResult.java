package towerledger.bulk;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What became of each row of a batch.
 *
 * @param fates one per row, in the order given
 * @param changes rows that changed a stored one, with what stood before
 */
public record BatchResult(List<Fate> fates, List<Change> changes) {

  public BatchResult {
    fates = List.copyOf(fates);
    changes = List.copyOf(changes);
  }

  /** What became of a row. */
  public enum Fate {
    ADDED,
    CHANGED,
    UNCHANGED,
    /** Repeats a value that has been corrected since; the correction stands. */
    OVERTAKEN
  }

  /**
   * A stored row changed.
   *
   * @param before the row as it stood
   * @param after the row as it stands
   */
  public record Change(@Nullable Object[] before, @Nullable Object[] after) {}
}
