package towerledger.page;

import java.util.OptionalDouble;
import java.util.regex.Pattern;

/** Reads a number as people type it into a form. */
public final class TypedNumber {

  private static final Pattern PLAIN =
      Pattern.compile("[+-]?(\\d{1,15}(\\.\\d{0,12})?|\\.\\d{1,12})");
  private static final Pattern GROUPED =
      Pattern.compile("[+-]?\\d{1,3}(,\\d{3}){1,4}(\\.\\d{0,12})?");

  private TypedNumber() {}

  /**
   * The number; empty when it is none. {@code 1234.5}, {@code 1,234.5} and {@code 1 234.5} are the
   * same; {@code 1,5} is not taken, since it may mean two things.
   */
  public static OptionalDouble find(String typed) {
    String text =
        typed.strip().replace('−', '-').replaceAll("(?<=\\d)[ \\u00a0\\u202f](?=\\d{3})", "");
    if (GROUPED.matcher(text).matches()) {
      text = text.replace(",", "");
    }
    return PLAIN.matcher(text).matches()
        ? OptionalDouble.of(Double.parseDouble(text))
        : OptionalDouble.empty();
  }
}
