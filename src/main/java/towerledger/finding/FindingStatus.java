package towerledger.finding;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How far a finding has come. */
public enum FindingStatus {
  /** Nobody has taken it yet. */
  OPEN,
  /** Somebody is to look. */
  ASSIGNED,
  /** Work is done; no whole month has passed since. */
  WORKED,
  /** The saving since the work is above zero with 95 % confidence. */
  VERIFIED,
  /** The months since the work neither show a saving nor rule out a full one. */
  NOT_YET_PROVABLE,
  /** The months since the work rule out that the work stopped the loss. */
  NO_SAVING_SEEN,
  /** It is no longer seen, and nobody logged a repair. */
  ENDED;

  /** The word used in files, addresses and texts. */
  public String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether somebody still has to go. */
  public boolean awaitsWork() {
    return this == OPEN || this == ASSIGNED;
  }

  /** Whether it must be taken to go on: nobody worked it, or the work did not stop it. */
  public boolean goesOn() {
    return awaitsWork() || this == NO_SAVING_SEEN;
  }

  /** The status of a code; empty where there is none. */
  public static Optional<FindingStatus> find(String code) {
    return Arrays.stream(values()).filter(status -> status.code().equals(code)).findFirst();
  }

  /**
   * The status of a code.
   *
   * @throws IllegalArgumentException when there is none
   */
  public static FindingStatus ofCode(String code) {
    return find(code)
        .orElseThrow(() -> new IllegalArgumentException("a finding is never '%s'".formatted(code)));
  }
}
