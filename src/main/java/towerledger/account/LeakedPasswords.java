package towerledger.account;

import java.util.Locale;
import java.util.Set;

/**
 * The 100,000 passwords most often seen in breaches, as the library nbvcxz brings them (MIT), asked
 * without any network. Case is ignored. Few of them are as long as a password has to be here, so
 * that one of them made longer in the ways people do it counts as well.
 */
final class LeakedPasswords {

  private static final String LIST = "/dictionaries/passwords.txt";

  /** Shorter ones, with enough added, are other passwords. */
  private static final int SHORTEST = 6;

  /** Read when the first password is set, not when the program starts. */
  private static final class Known {
    static final Set<String> ALL =
        PackedWords.read(LIST, lines -> lines.map(line -> line.strip().toLowerCase(Locale.ROOT)));
  }

  int size() {
    return Known.ALL.size();
  }

  /**
   * Whether a password in small letters is one of them: as it is, with digits and signs put before
   * or after, or written several times in a row.
   */
  boolean isOne(String password) {
    if (Known.ALL.contains(password)) {
      return true;
    }
    return isPadded(password) || isRepeated(password);
  }

  private boolean isPadded(String password) {
    for (int from = 0; from == 0 || isPadding(password, from - 1); from++) {
      for (int to = password.length(); to - from >= SHORTEST; to--) {
        if (Known.ALL.contains(password.substring(from, to))) {
          return true;
        }
        if (!isPadding(password, to - 1)) {
          break;
        }
      }
    }
    return false;
  }

  private static boolean isPadding(String password, int index) {
    return index < password.length()
        && password.charAt(index) < 0x80
        && !Character.isLetter(password.charAt(index));
  }

  private boolean isRepeated(String password) {
    for (int period = SHORTEST; period <= password.length() / 2; period++) {
      if (password.length() % period == 0
          && password.equals(password.substring(0, period).repeat(password.length() / period))
          && Known.ALL.contains(password.substring(0, period))) {
        return true;
      }
    }
    return false;
  }
}
