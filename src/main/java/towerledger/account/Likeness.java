package towerledger.account;

import java.util.Locale;

/** Text sought within text. */
final class Likeness {

  private Likeness() {}

  /** In lower case, with the signs that LIKE reads otherwise escaped by {@code !}. */
  static String escaped(String text) {
    return text.toLowerCase(Locale.ROOT).replace("!", "!!").replace("%", "!%").replace("_", "!_");
  }
}
