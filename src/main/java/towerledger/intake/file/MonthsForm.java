package towerledger.intake.file;

import java.util.regex.Pattern;

/** How files write seasons and days of the week. */
final class MonthsForm {

  private static final String MONTH = "(1[0-2]|0?[1-9])";
  private static final String DAY = "(?i:Mon|Tue|Wed|Thu|Fri|Sat|Sun)";

  static final Pattern MONTHS =
      Pattern.compile(MONTH + "(-" + MONTH + ")?(;" + MONTH + "(-" + MONTH + ")?)*");
  static final String MONTHS_IN_WORDS = "as first and last month such as 12-2, or one month";

  static final Pattern DAYS =
      Pattern.compile(DAY + "(-" + DAY + ")?(;" + DAY + "(-" + DAY + ")?)*");
  static final String DAYS_IN_WORDS = "as Mon-Fri, Mon-Sun or Sat;Sun";

  private MonthsForm() {}
}
