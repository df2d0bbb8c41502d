package towerledger.office;

import java.util.Locale;
import towerledger.account.UnitPreference;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Twin;
import towerledger.wording.Words;

/** Columns of the interchange format as people read them: named in words, with their units. */
public final class ColumnText {

  private static final String LABEL = "column.";

  private ColumnText() {}

  /** A column's name in words, without its unit; as the files name it where there are no words. */
  public static String label(Column column, Words words) {
    return words.or(LABEL + bare(column), column.name());
  }

  /**
   * A name in words.
   *
   * @param name name of a column without unit, or of a field that is kept beside columns
   */
  public static String label(String name, Words words) {
    return words.or(
        LABEL + name, name.isEmpty() ? name : capital(name.replace('_', ' '), words.locale()));
  }

  private static String capital(String text, Locale locale) {
    return text.substring(0, 1).toUpperCase(locale) + text.substring(1);
  }

  private static String bare(Column column) {
    Twin twin = column.twin();
    String name = column.name();
    return twin == null ? name : name.substring(0, name.length() - twin.usUnit().length() - 1);
  }

  /** The unit a column is told in; empty where it has none. */
  public static String unit(Column column, UnitPreference units) {
    Twin twin = column.twin();
    if (twin == null) {
      return column.name().endsWith("_percent") ? "%" : column.name().endsWith("_deg") ? "°" : "";
    }
    String code = units == UnitPreference.SI ? twin.siUnit() : twin.usUnit();
    return switch (code) {
      case "f" -> "°F";
      case "c" -> "°C";
      case "l" -> "L";
      case "l_s" -> "L/s";
      case "m3_s" -> "m³/s";
      case "kw" -> "kW";
      case "kwh" -> "kWh";
      case "kpa" -> "kPa";
      case "inhg" -> "inHg";
      case "cv" -> "Cv";
      case "kv" -> "Kv";
      case "mmbtu" -> "MMBtu";
      case "gj" -> "GJ";
      case "ton_hours" -> "ton-hours";
      default -> code;
    };
  }
}
