package towerledger.account;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.springframework.stereotype.Component;

/**
 * What a new password has to be, after NIST SP 800-63B revision 4 (2025), section 3.1.1.2: at least
 * 15 characters where it is the only factor, long ones accepted, no rule of composition, no expiry,
 * and none that guessers try first.
 *
 * <p>Those are told in two ways. {@link LeakedPasswords} holds the ones most often seen in
 * breaches. A list of the project's own holds words and rows of keys that common passwords are made
 * of: one is refused when nothing but such pieces is in it, however they are repeated, numbered or
 * spelt with figures for letters. A phrase of ordinary words is on neither.
 */
@Component
class PasswordRules {

  /** Shortest password; SP 800-63B-4 section 3.1.1.2 for a single factor. */
  static final int MIN_LENGTH = 15;

  private static final String LIST = "common-password-pieces.txt";
  private static final String LEET = "@4031!5$7+";
  private static final String PLAIN = "aaoeiisstt";
  private static final List<String> SERVICE = List.of("tower", "water", "ledger", "cooling");
  private static final int SHORTEST_PIECE = 3;

  private final LeakedPasswords leaked = new LeakedPasswords();
  private final Set<String> pieces =
      PackedWords.read(
          LIST,
          lines ->
              lines
                  .filter(line -> !line.startsWith("#"))
                  .flatMap(line -> Arrays.stream(line.split("\\s+", -1)))
                  .filter(piece -> piece.length() >= SHORTEST_PIECE));
  private final int longestPiece = pieces.stream().mapToInt(String::length).max().orElse(0);

  /** Why this password may not be this person's; empty if it may. */
  Optional<PasswordFault> check(String password, String email, String name) {
    if (Passwords.isTooLong(password)) {
      return Optional.of(PasswordFault.TOO_LONG);
    }
    String normal = Passwords.normal(password);
    int length = normal.codePointCount(0, normal.length());
    if (length > Passwords.MAX_LENGTH) {
      return Optional.of(PasswordFault.TOO_LONG);
    }
    if (length < MIN_LENGTH) {
      return Optional.of(PasswordFault.TOO_SHORT);
    }
    String letters = normal.toLowerCase(Locale.ROOT);
    if (leaked.isOne(letters)
        || leaked.isOne(plain(letters))
        || isMadeOf(letters, pieces, longestPiece)) {
      return Optional.of(PasswordFault.COMMON);
    }
    Set<String> own = ownPieces(email, name);
    int longest = own.stream().mapToInt(String::length).max().orElse(0);
    return isMadeOf(letters, own, Math.max(longest, longestPiece))
        ? Optional.of(PasswordFault.OWN_NAME)
        : Optional.empty();
  }

  private Set<String> ownPieces(String email, String name) {
    Set<String> own = new HashSet<>(pieces);
    own.addAll(SERVICE);
    for (String text : List.of(email, name)) {
      Arrays.stream(text.toLowerCase(Locale.ROOT).split("[^\\p{L}]+", -1))
          .filter(piece -> piece.length() >= SHORTEST_PIECE)
          .forEach(own::add);
    }
    return own;
  }

  /**
   * Whether pieces, repeated characters, running sequences, digits and signs cover a password from
   * end to end: {@code reach[i]} says whether its first i characters are covered.
   */
  private static boolean isMadeOf(String password, Set<String> pieces, int longest) {
    String plain = plain(password);
    int n = password.length();
    boolean[] reach = new boolean[n + 1];
    reach[0] = true;
    for (int from = 0; from < n; from++) {
      if (!reach[from]) {
        continue;
      }
      if (!Character.isLetter(password.charAt(from))) {
        reach[from + 1] = true;
      }
      for (int to = from + SHORTEST_PIECE; to <= Math.min(n, from + longest); to++) {
        if (pieces.contains(plain.substring(from, to))
            || pieces.contains(password.substring(from, to))) {
          reach[to] = true;
        }
      }
      for (int to = runEnd(password, from); to >= from + SHORTEST_PIECE; to--) {
        reach[to] = true;
      }
    }
    return reach[n];
  }

  /** End of the run of equal, rising or falling characters that begins at an index. */
  private static int runEnd(String password, int from) {
    if (from + 1 >= password.length()) {
      return from;
    }
    int step = password.charAt(from + 1) - password.charAt(from);
    if (Math.abs(step) > 1) {
      return from;
    }
    int end = from + 1;
    while (end + 1 < password.length() && password.charAt(end + 1) - password.charAt(end) == step) {
      end++;
    }
    return end + 1;
  }

  private static String plain(String password) {
    StringBuilder plain = new StringBuilder(password.length());
    for (int i = 0; i < password.length(); i++) {
      int leet = LEET.indexOf(password.charAt(i));
      plain.append(leet < 0 ? password.charAt(i) : PLAIN.charAt(leet));
    }
    return plain.toString();
  }
}
