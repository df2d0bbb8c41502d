package towerledger.intake.file;

import towerledger.account.Outcome;
import towerledger.bulk.BatchResult.Fate;

/** Outcomes of things put one by one, in the words of bulk loads. */
final class Fates {

  private Fates() {}

  static Fate of(Outcome outcome) {
    return switch (outcome) {
      case ADDED -> Fate.ADDED;
      case CHANGED -> Fate.CHANGED;
      case UNCHANGED -> Fate.UNCHANGED;
    };
  }
}
