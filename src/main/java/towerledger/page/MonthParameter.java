package towerledger.page;

import java.time.YearMonth;
import java.util.Optional;
import java.util.regex.Pattern;
import org.springframework.core.convert.converter.Converter;
import org.springframework.stereotype.Component;

/**
 * A month as addresses carry it, {@code 2026-10}: a year of four digits. The calendar of Java
 * reaches much farther, to years whose next month does not exist and that no database keeps.
 */
@Component
public class MonthParameter implements Converter<String, YearMonth> {

  private static final Pattern MONTH = Pattern.compile("[0-9]{4}-(0[1-9]|1[0-2])");

  /** The month that a text names; empty where it names none. */
  public static Optional<YearMonth> find(String text) {
    return MONTH.matcher(text).matches() ? Optional.of(YearMonth.parse(text)) : Optional.empty();
  }

  /**
   * The month that a parameter names.
   *
   * @throws IllegalArgumentException when it names none
   */
  @Override
  public YearMonth convert(String text) {
    return find(text).orElseThrow(() -> new IllegalArgumentException("no month: " + text));
  }
}
