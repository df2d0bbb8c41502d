package towerledger.intake;

import org.jspecify.annotations.Nullable;
import towerledger.account.Actor;
import towerledger.account.Viewer;

/**
 * Who hands something in.
 *
 * @param actor whom the history names
 * @param viewer whose eyes codes are looked up with; null for the program itself
 * @param origin where it came from in words, such as {@code start-up} or a file's name; at most 300
 *     characters
 */
public record ImportRequest(Actor actor, @Nullable Viewer viewer, String origin) {

  private static final String START_UP = "start-up";
  private static final int LONGEST_ORIGIN = 300;

  public ImportRequest {
    origin = Upload.shown(origin);
    origin = origin.length() > LONGEST_ORIGIN ? origin.substring(0, LONGEST_ORIGIN) : origin;
  }

  /** Whether it is the import at start, which goes before all others. */
  boolean isStartUp() {
    return viewer == null && actor.source().equals(START_UP);
  }

  /** The program's own import at start. */
  public static ImportRequest startUp(String origin) {
    return new ImportRequest(Actor.system(START_UP), null, origin);
  }
}
