package towerledger.intake.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.account.Outcome;
import towerledger.bulk.BatchResult.Fate;

/**
 * What became of a row that was handed over to be taken.
 *
 * @param fate what it did; null when it was refused
 * @param reason why it was refused and how to mend it; empty when it was taken
 */
public record RowFate(@Nullable Fate fate, String reason) {

  private static final RowFate ADDED = new RowFate(Fate.ADDED, "");
  private static final RowFate CHANGED = new RowFate(Fate.CHANGED, "");
  private static final RowFate UNCHANGED = new RowFate(Fate.UNCHANGED, "");
  private static final RowFate OVERTAKEN = new RowFate(Fate.OVERTAKEN, "");

  static RowFate of(Fate fate) {
    return switch (fate) {
      case ADDED -> ADDED;
      case CHANGED -> CHANGED;
      case UNCHANGED -> UNCHANGED;
      case OVERTAKEN -> OVERTAKEN;
    };
  }

  static RowFate of(Outcome outcome) {
    return switch (outcome) {
      case ADDED -> ADDED;
      case CHANGED -> CHANGED;
      case UNCHANGED -> UNCHANGED;
    };
  }

  static RowFate refused(String reason) {
    return new RowFate(null, reason);
  }

  static List<RowFate> ofAll(List<Fate> fates) {
    return fates.stream().map(RowFate::of).toList();
  }
}
