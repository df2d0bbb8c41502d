package towerledger.balance;

import java.util.List;

/**
 * How likely a cause is, and why.
 *
 * @param cause the cause
 * @param probability posterior probability, 0–1
 * @param evidenceFor what speaks for it, in words
 * @param evidenceAgainst what speaks against it, in words
 */
public record CauseOpinion(
    Cause cause, double probability, List<String> evidenceFor, List<String> evidenceAgainst) {

  public CauseOpinion {
    if (!(probability >= 0 && probability <= 1)) {
      throw new IllegalArgumentException(
          "probability of %s is %s, outside 0 to 1".formatted(cause.code(), probability));
    }
    evidenceFor = List.copyOf(evidenceFor);
    evidenceAgainst = List.copyOf(evidenceAgainst);
  }
}
