package towerledger.intake;

import java.util.ArrayList;
import java.util.List;
import towerledger.bulk.BatchResult.Fate;

/** Counts what becomes of a file's rows. */
final class FileTally {

  private static final int REASONS_TOLD = 50;

  private final String file;
  private final List<String> reasons = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();
  private long added;
  private long changed;
  private long unchanged;
  private long quarantined;
  private long overtaken;
  private long settled;

  FileTally(String file) {
    this.file = file;
  }

  synchronized void count(Fate fate) {
    switch (fate) {
      case ADDED -> added++;
      case CHANGED -> changed++;
      case UNCHANGED -> unchanged++;
      case OVERTAKEN -> {
        unchanged++;
        overtaken++;
      }
    }
  }

  synchronized void countBlank() {
    unchanged++;
  }

  synchronized void countQuarantined(Quarantined row) {
    quarantined++;
    if (reasons.size() < REASONS_TOLD) {
      reasons.add("line " + row.line() + ": " + row.reason());
    }
  }

  /** Something to tell besides, once. */
  synchronized void note(String words) {
    if (!notes.contains(words)) {
      notes.add(words);
    }
  }

  synchronized void countSettled() {
    unchanged++;
    settled++;
  }

  synchronized FileReceipt receipt() {
    var told = new ArrayList<>(reasons);
    if (quarantined > reasons.size()) {
      told.add(
          "and %d more rows; all of them stand in quarantine with their reasons"
              .formatted(quarantined - reasons.size()));
    }
    if (overtaken > 0) {
      told.add(
          ("%d rows repeat values that were corrected since; the corrections stand, and the rows"
                  + " count as unchanged")
              .formatted(overtaken));
    }
    if (settled > 0) {
      told.add(
          ("%d rows were mended or dropped in quarantine when they came before; they count as"
                  + " unchanged")
              .formatted(settled));
    }
    told.addAll(notes);
    long rows = added + changed + unchanged + quarantined;
    return new FileReceipt(file, rows, added, changed, unchanged, quarantined, told);
  }
}
