package towerledger.drawing;

import java.time.chrono.IsoChronology;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.FormatStyle;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * How dates are written in one language. Made once a language: a formatter that is asked for by its
 * style looks the pattern up anew at every use, and a page writes hundreds of dates.
 *
 * @param month a month in full
 * @param shortMonth a month where there is little room
 * @param day a day in the usual order
 * @param moment a day with its time
 * @param clock the short name of a time zone
 */
record DateFormats(
    DateTimeFormatter month,
    DateTimeFormatter shortMonth,
    DateTimeFormatter day,
    DateTimeFormatter moment,
    DateTimeFormatter clock) {

  private static final Map<Locale, DateFormats> KNOWN = new ConcurrentHashMap<>();

  static DateFormats of(Locale locale) {
    return KNOWN.computeIfAbsent(
        locale,
        l ->
            new DateFormats(
                DateTimeFormatter.ofPattern("LLLL yyyy", l),
                DateTimeFormatter.ofPattern("LLL yyyy", l),
                usual(l, null),
                usual(l, FormatStyle.SHORT),
                DateTimeFormatter.ofPattern("zzz", l)));
  }

  private static DateTimeFormatter usual(Locale locale, @Nullable FormatStyle time) {
    return DateTimeFormatter.ofPattern(
        DateTimeFormatterBuilder.getLocalizedDateTimePattern(
            FormatStyle.MEDIUM, time, IsoChronology.INSTANCE, locale),
        locale);
  }
}
