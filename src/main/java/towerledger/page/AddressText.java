package towerledger.page;

import java.util.Set;
import java.util.regex.Pattern;
import towerledger.wording.Words;

/** Where something was done from, as people know it. */
public final class AddressText {

  private static final Set<String> HERE = Set.of("0:0:0:0:0:0:0:1", "::1", "127.0.0.1");

  private static final Pattern ZEROS = Pattern.compile("(?:^|:)0(?::0)+(?::|$)");

  private AddressText() {}

  /**
   * An address of the network in its short form (RFC 5952), the machine's own in words.
   *
   * @param kept an address as it was kept; anything else comes back as it is
   */
  public static String of(String kept, Words words) {
    if (HERE.contains(kept)) {
      return words.of("history.from.here");
    }
    boolean longForm = kept.chars().filter(c -> c == ':').count() == 7;
    return longForm ? ZEROS.matcher(kept).replaceFirst("::") : kept;
  }
}
