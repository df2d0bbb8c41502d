package towerledger.tariff;

import java.math.BigDecimal;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import towerledger.quantity.Units;

/**
 * Nominal size of a service meter, as rate tables list it. Held in hundredths of a millimetre, so
 * that 5/8 in, 0.625 in and 15.875 mm are one size and 2 in (50.8 mm) and DN 50 are two.
 *
 * @param hundredthsOfMillimetre size, above zero
 */
public record MeterSize(int hundredthsOfMillimetre) implements Comparable<MeterSize> {

  private static final Pattern TEXT =
      Pattern.compile(
          "(?:(?<whole>\\d+(?:\\.\\d+)?)[\\s|_-]*)?(?:(?<over>\\d+)\\s*/\\s*(?<under>\\d+))?");

  private static final int LARGEST_INCHES = 120;

  public MeterSize {
    if (hundredthsOfMillimetre <= 0) {
      throw new IllegalArgumentException(
          "meter size of %s mm is not above zero; give the size printed in the rate table"
              .formatted(hundredthsOfMillimetre / 100.0));
    }
  }

  /**
   * A size in inches.
   *
   * @param inches above 0 and at most 120
   */
  public static MeterSize ofInches(double inches) {
    if (!(inches > 0 && inches <= LARGEST_INCHES)) {
      throw new IllegalArgumentException(
          "meter size of %s in is outside 0 to %d in; give the size printed in the rate table"
              .formatted(inches, LARGEST_INCHES));
    }
    return ofMillimetres(inches * Units.MILLIMETRES_PER_INCH);
  }

  /** A size in millimetres, above 0. */
  public static MeterSize ofMillimetres(double millimetres) {
    return new MeterSize((int) Math.round(millimetres * 100));
  }

  /**
   * A size as people write it in inches: {@code 2}, {@code 0.75}, {@code 3/4"}, {@code 1 1/2"},
   * {@code 1-1/2}, {@code 1|1/2"}, {@code 1_1/2"}, {@code 2 in}.
   *
   * @throws IllegalArgumentException when the text is no size
   */
  public static MeterSize parseInches(String text) {
    String plain =
        text.strip().replaceAll("(?i)(\"|''|\u201d|\\s*inch(es)?|\\s*in\\.?)\\s*$", "").strip();
    Matcher matcher = TEXT.matcher(plain);
    if (plain.isEmpty() || !matcher.matches()) {
      throw new IllegalArgumentException(
          "meter size '%s' is not a size in inches; write it as 2, 0.75 or 1 1/2".formatted(text));
    }
    String whole = matcher.group("whole");
    String over = matcher.group("over");
    double inches = whole == null ? 0 : Double.parseDouble(whole);
    if (over != null) {
      inches += Double.parseDouble(over) / Double.parseDouble(matcher.group("under"));
    }
    return ofInches(inches);
  }

  public double millimetres() {
    return hundredthsOfMillimetre / 100.0;
  }

  /** The size in inches, to a thousandth, as rate tables print it. */
  public double inches() {
    return Math.round(millimetres() / Units.MILLIMETRES_PER_INCH * 1000) / 1000.0;
  }

  @Override
  public int compareTo(MeterSize other) {
    return Integer.compare(hundredthsOfMillimetre, other.hundredthsOfMillimetre);
  }

  /** The size with its unit, for instance {@code 0.75 in}. */
  @Override
  public String toString() {
    return BigDecimal.valueOf(inches()).stripTrailingZeros().toPlainString() + " in";
  }
}
