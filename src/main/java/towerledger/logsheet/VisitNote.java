package towerledger.logsheet;

import java.util.Optional;
import towerledger.balance.facts.Visit;

/**
 * A visit as it was written down: what the ledger reckons with, and the words.
 *
 * @param visit when, events, findings and values
 * @param observation what was seen, at most 4000 characters
 * @param workDone what was done, at most 4000 characters
 */
public record VisitNote(Visit visit, Optional<String> observation, Optional<String> workDone) {

  private static final int LONGEST_TEXT = 4000;

  public VisitNote {
    requireShort("observation", observation);
    requireShort("work_done", workDone);
  }

  private static void requireShort(String field, Optional<String> text) {
    text.filter(words -> words.length() > LONGEST_TEXT)
        .ifPresent(
            words -> {
              throw new IllegalArgumentException(
                  "%s has %d characters; at most %d are kept"
                      .formatted(field, words.length(), LONGEST_TEXT));
            });
  }
}
