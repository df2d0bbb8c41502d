package towerledger.tariff.owrs;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/**
 * Brings the keys of a choice to one spelling. One and a half inches stands in published documents
 * as {@code 1 1/2"}, {@code 1|1/2"} and {@code 1_1/2"}, the bar being the separator of joined keys
 * as well; so the whole joined key is brought to one spelling, never its pieces.
 */
final class ChoiceKey {

  private static final Pattern MIXED_FRACTION =
      Pattern.compile("(?<![\\d./])(\\d+)\\s*[|_ -]\\s*(\\d+)\\s*/\\s*(\\d+)(?![\\d./])");
  private static final Pattern FRACTION =
      Pattern.compile("(?<![\\d./])(\\d+)\\s*/\\s*(\\d+)(?![\\d./])");
  private static final Pattern INCHES =
      Pattern.compile("(?<=\\d)\\s*(?:\"|''|inches\\b|inch\\b|in\\b\\.?)");
  private static final Pattern NUMBER =
      Pattern.compile("(?<![\\w.])(?:\\d+\\.?\\d*|\\.\\d+)(?![\\w.])");

  private ChoiceKey() {}

  /** One spelling for all ways to write a key; equal keys stay equal. */
  static String canonical(String key) {
    String text = key.strip().toLowerCase(Locale.ROOT).replaceAll("[\u201c\u201d\u2033]", "\"");
    text =
        MIXED_FRACTION
            .matcher(text)
            .replaceAll(found -> new BigDecimal(found.group(1)).add(quotient(found, 2)).toString());
    text = FRACTION.matcher(text).replaceAll(found -> quotient(found, 1).toString());
    text = INCHES.matcher(text).replaceAll("");
    text = text.replaceAll("[\\s_]+", " ").replaceAll(" ?\\| ?", "|");
    return NUMBER.matcher(text).replaceAll(found -> plain(new BigDecimal(found.group())));
  }

  private static BigDecimal quotient(MatchResult found, int first) {
    BigDecimal under = new BigDecimal(found.group(first + 1));
    return under.signum() == 0
        ? BigDecimal.ZERO
        : new BigDecimal(found.group(first)).divide(under, MathContext.DECIMAL32);
  }

  private static String plain(BigDecimal value) {
    return value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString();
  }
}
