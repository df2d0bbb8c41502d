package towerledger.drawing;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.format.TextStyle;
import java.util.Currency;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import towerledger.account.UnitPreference;
import towerledger.quantity.Conductivity;
import towerledger.quantity.Flow;
import towerledger.quantity.Money;
import towerledger.quantity.Pressure;
import towerledger.quantity.Temperature;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;

/**
 * Writes figures as people read them, in one reader's units and language. Every modelled figure
 * comes with its interval; every figure with its unit, unless the method says that a table heading
 * carries it.
 *
 * <p>An interval decides how many digits are shown: its half-width is given to two significant
 * digits and the value to the same place (JCGM 100:2008, 7.2.2 and 7.2.6).
 *
 * @param units the reader's units
 * @param locale the reader's language and number format
 */
public record FigureText(UnitPreference units, Locale locale) {

  private static final String TO = " … ";
  private static final String PLUS_MINUS = "\u00a0±\u00a0";
  private static final char SPACE = '\u00a0';

  // One a language; made once, since a page writes hundreds of figures.
  private static final Map<Locale, NumberFormat> NUMBERS = new ConcurrentHashMap<>();
  private static final Map<Locale, DecimalFormatSymbols> GROUPS = new ConcurrentHashMap<>();
  private static final Map<Locale, NumberFormat> MONEY = new ConcurrentHashMap<>();

  /** The reader's texts for a language tag; {@code en} and {@code es} count as US usage. */
  public static FigureText of(UnitPreference units, String language) {
    Locale asked = Locale.forLanguageTag(language);
    Locale locale =
        asked.getCountry().isEmpty()
            ? new Locale.Builder().setLocale(asked).setRegion("US").build()
            : asked;
    return new FigureText(units, locale);
  }

  // Volumes

  /** Unit of volumes in sentences and tables. */
  public VolumeUnit volumeUnit() {
    return units == UnitPreference.US ? VolumeUnit.US_GALLON : VolumeUnit.CUBIC_METRE;
  }

  /** Unit of volumes on the axes of charts. */
  public VolumeUnit axisUnit() {
    return units == UnitPreference.US ? VolumeUnit.THOUSAND_US_GALLONS : VolumeUnit.CUBIC_METRE;
  }

  /** Name of a unit as written after a number. */
  public static String unitName(VolumeUnit unit) {
    return switch (unit) {
      case US_GALLON -> "gal";
      case THOUSAND_US_GALLONS -> "kgal";
      case IMPERIAL_GALLON -> "imp gal";
      case CUBIC_FOOT -> "ft³";
      case HUNDRED_CUBIC_FEET -> "ccf";
      case LITRE -> "L";
      case CUBIC_METRE -> "m³";
    };
  }

  /** Name of the unit of volumes in sentences and tables. */
  public String volumeUnitName() {
    return unitName(volumeUnit());
  }

  /** A volume with its unit, to three digits: 412,000 gal. */
  public String volume(Volume volume) {
    return bareVolume(volume) + SPACE + volumeUnitName();
  }

  /** A volume to three digits, its unit in the heading above. */
  public String bareVolume(Volume volume) {
    return significant(volume.in(volumeUnit()), 3);
  }

  /**
   * A part of a sum, its unit in the heading above: rounded where the sum has its fourth digit, so
   * that the parts as written add up to the sum as written but for rounding.
   */
  public String barePart(Volume part, Volume sum) {
    double whole = Math.abs(sum.in(volumeUnit()));
    if (whole == 0) {
      return bareVolume(part);
    }
    int place = (int) Math.floor(Math.log10(whole)) - 3;
    return decimals(Rounding.round(part.in(volumeUnit()), place), Math.max(0, -place));
  }

  /** A part of a sum with its unit, rounded as beside the other parts. */
  public String part(Volume part, Volume sum) {
    return barePart(part, sum) + SPACE + volumeUnitName();
  }

  /** A metered volume in full: every gallon, or tenth of a cubic metre. */
  public String wholeVolume(Volume volume) {
    return decimals(volume.in(volumeUnit()), units == UnitPreference.US ? 0 : 1);
  }

  /** A volume with its 95 % interval and unit: 331,000 ± 24,000 gal. */
  public String estimate(Volume value, Volume low, Volume high) {
    return bareEstimate(value, low, high) + SPACE + volumeUnitName();
  }

  /** An estimate's value alone, rounded as beside its interval of half this width: 331,000 gal. */
  public String about(Volume value, Volume half) {
    double middle = value.in(volumeUnit());
    int place = Rounding.place(Math.max(half.in(volumeUnit()), 1e-9));
    return half.litres() > 0
        ? decimals(Rounding.round(middle, place), Math.max(0, -place)) + SPACE + volumeUnitName()
        : volume(value);
  }

  /** The same of an amount: $1,240. */
  public String about(Money value, double half) {
    return half > 0
        ? currency(value.currency(), 0)
            .format(Rounding.round(value.amount().doubleValue(), Math.max(0, Rounding.place(half))))
        : money(value);
  }

  /** Half a 95 % interval, its unit in the heading above: ± 24,000. */
  public String halfWidth(Volume half) {
    return "±" + SPACE + significant(half.in(volumeUnit()), 2);
  }

  /** A volume with its 95 % interval, its unit in the heading above. */
  public String bareEstimate(Volume value, Volume low, Volume high) {
    VolumeUnit unit = volumeUnit();
    return withInterval(value.in(unit), low.in(unit), high.in(unit));
  }

  // Money

  /** An amount in whole units of currency, or with cents below ten. */
  public String money(Money money) {
    boolean cents =
        money.amount().abs().compareTo(BigDecimal.TEN) < 0 && money.amount().signum() != 0;
    return currency(money.currency(), cents ? places(money.currency()) : 0).format(money.amount());
  }

  /** An amount to the cent, as on a bill. */
  public String exactMoney(Money money) {
    return currency(money.currency(), places(money.currency())).format(money.amount());
  }

  /** Decimal places of a currency on a bill; none of the yen. */
  private static int places(Currency currency) {
    return Math.max(0, currency.getDefaultFractionDigits());
  }

  /** A rate per unit, with as many places as it has, two at least. */
  public String rate(Money money) {
    NumberFormat format = currency(money.currency(), 2);
    format.setMaximumFractionDigits(6);
    return format.format(money.amount());
  }

  /** An amount with its 95 % interval: $1,240 ± 310. */
  public String estimate(Money value, Money low, Money high) {
    double middle = value.amount().doubleValue();
    double lower = low.amount().doubleValue();
    double upper = high.amount().doubleValue();
    if (upper <= lower) {
      return money(value);
    }
    int place = Math.max(0, Rounding.place(Rounding.halfWidth(middle, lower, upper)));
    NumberFormat format = currency(value.currency(), 0);
    if (Rounding.isLopsided(middle, lower, upper)) {
      return format.format(Rounding.round(middle, place))
          + " ("
          + format.format(Rounding.round(lower, place))
          + TO
          + format.format(Rounding.round(upper, place))
          + ")";
    }
    return format.format(Rounding.round(middle, place))
        + PLUS_MINUS
        + decimals(Rounding.round((upper - lower) / 2, place), 0);
  }

  private NumberFormat currency(Currency currency, int decimals) {
    NumberFormat format = copy(MONEY.computeIfAbsent(locale, NumberFormat::getCurrencyInstance));
    format.setCurrency(currency);
    format.setMinimumFractionDigits(decimals);
    format.setMaximumFractionDigits(decimals);
    format.setRoundingMode(RoundingMode.HALF_UP);
    if (format instanceof DecimalFormat decimal) {
      // a true minus, as before every other figure
      decimal.setNegativePrefix(decimal.getNegativePrefix().replace('-', '−'));
    }
    return format;
  }

  // Other quantities

  /** A temperature to a tenth of a degree. */
  public String temperature(Temperature temperature) {
    return units == UnitPreference.US
        ? decimals(temperature.fahrenheit(), 1) + SPACE + "°F"
        : decimals(temperature.celsius(), 1) + SPACE + "°C";
  }

  /** Unit of pressures. */
  public String pressureUnitName() {
    return units == UnitPreference.US ? "psi" : "kPa";
  }

  /** A pressure above the air's, in whole psi or kPa. */
  public String pressure(Pressure pressure) {
    return decimals(pressureNumber(pressure), 0) + SPACE + pressureUnitName();
  }

  /** A pressure as a number in {@link #pressureUnitName()}. */
  public double pressureNumber(Pressure pressure) {
    return units == UnitPreference.US ? pressure.psi() : pressure.kilopascals();
  }

  /** A flow to three digits. */
  public String flow(Flow flow) {
    return units == UnitPreference.US
        ? significant(flow.usGallonsPerMinute(), 3) + SPACE + "gpm"
        : significant(flow.litresPerSecond(), 3) + SPACE + "L/s";
  }

  /** A conductivity in whole microsiemens per centimetre. */
  public String conductivity(Conductivity conductivity) {
    return decimals(conductivity.microsiemensPerCm(), 0) + SPACE + "µS/cm";
  }

  /** Cycles of concentration to a tenth. */
  public String cycles(double cycles) {
    return decimals(cycles, 1);
  }

  /** A ratio as whole percent, or below 10 % to a tenth. */
  public String percent(double ratio) {
    return decimals(ratio * 100, Math.abs(ratio) < 0.0995 ? 1 : 0) + SPACE + "%";
  }

  /** A probability in whole percent, never 0 or 100: nothing is that sure. */
  public String odds(double probability) {
    double percent = probability * 100;
    if (percent > 99) {
      return ">" + SPACE + "99" + SPACE + "%";
    }
    return percent < 1 ? "<" + SPACE + "1" + SPACE + "%" : decimals(percent, 0) + SPACE + "%";
  }

  // Numbers

  /** A number with a fixed number of decimals. */
  public String decimals(double value, int decimals) {
    if (decimals == 0 && value == Math.rint(value) && Math.abs(value) < Rounding.LARGEST_WHOLE) {
      return whole((long) value);
    }
    NumberFormat format = number();
    format.setRoundingMode(RoundingMode.HALF_UP);
    format.setMinimumFractionDigits(decimals);
    format.setMaximumFractionDigits(decimals);
    String text = format.format(value);
    // −0 is 0, and a minus sign is as wide as a plus
    return isNegativeZero(text) ? text.substring(1) : text.replace('-', '−');
  }

  /** A whole number with its groups of three: most figures of a page, and quick to write. */
  private String whole(long value) {
    String digits = Long.toString(Math.abs(value));
    StringBuilder text = new StringBuilder(digits.length() * 4 / 3 + 2);
    if (value < 0) {
      text.append('−');
    }
    char group =
        GROUPS.computeIfAbsent(locale, l -> new DecimalFormatSymbols(l)).getGroupingSeparator();
    for (int i = 0; i < digits.length(); i++) {
      if (i > 0 && (digits.length() - i) % 3 == 0) {
        text.append(group);
      }
      text.append(digits.charAt(i));
    }
    return text.toString();
  }

  private static boolean isNegativeZero(String text) {
    return text.startsWith("-")
        && text.chars().skip(1).allMatch(c -> c == '0' || c == '.' || c == ',');
  }

  private NumberFormat number() {
    return copy(NUMBERS.computeIfAbsent(locale, NumberFormat::getNumberInstance));
  }

  /** A format is not for two threads at once; copying one is cheaper than making one. */
  private static NumberFormat copy(NumberFormat format) {
    return (NumberFormat) format.clone();
  }

  /** A number rounded to significant digits: 411,870 to three is 412,000. */
  public String significant(double value, int digits) {
    if (value == 0) {
      return "0";
    }
    int place = (int) Math.floor(Math.log10(Math.abs(value))) - digits + 1;
    return decimals(Rounding.round(value, place), Math.max(0, -place));
  }

  /** A tick of an axis: as few digits as it needs. */
  public String tick(double value) {
    NumberFormat format = number();
    format.setMaximumFractionDigits(2);
    return format.format(value).replace('-', '−');
  }

  /**
   * A value with its interval: 331,000 ± 24,000, or 12,000 (4,000 … 31,000) where it is lopsided.
   */
  public String withInterval(double value, double low, double high) {
    if (high <= low) {
      return significant(value, 3);
    }
    int place = Rounding.place(Rounding.halfWidth(value, low, high));
    int decimals = Math.max(0, -place);
    String middle = decimals(Rounding.round(value, place), decimals);
    if (Rounding.isLopsided(value, low, high)) {
      return middle
          + " ("
          + decimals(Rounding.round(low, place), decimals)
          + TO
          + decimals(Rounding.round(high, place), decimals)
          + ")";
    }
    return middle + PLUS_MINUS + decimals(Rounding.round((high - low) / 2, place), decimals);
  }

  // Times

  /** October 2026. */
  public String month(YearMonth month) {
    return month.format(DateFormats.of(locale).month());
  }

  /** Oct 2026. */
  public String shortMonth(YearMonth month) {
    return month.format(DateFormats.of(locale).shortMonth());
  }

  /** The first letter of a month, as on an axis of thirteen. */
  public String monthLetter(YearMonth month) {
    return month.getMonth().getDisplayName(TextStyle.NARROW_STANDALONE, locale).toUpperCase(locale);
  }

  /** A day in the reader's usual order. */
  public String day(LocalDate day) {
    return day.format(DateFormats.of(locale).day());
  }

  /** An instant as the clock at the site showed it. */
  public String moment(Instant instant, ZoneId zone) {
    return instant.atZone(zone).format(DateFormats.of(locale).moment());
  }

  /** The same with the clock it is of, for what did not happen at the site: 5:19 AM CST. */
  public String stamp(Instant instant, ZoneId zone) {
    return moment(instant, zone)
        + SPACE
        + instant.atZone(zone).format(DateFormats.of(locale).clock());
  }
}
