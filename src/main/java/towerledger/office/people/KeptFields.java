package towerledger.office.people;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Twin;
import towerledger.office.ColumnText;
import towerledger.office.SettingText;
import towerledger.site.SettingName;
import towerledger.wording.Words;

/**
 * What a line of history keeps, said in the reader's language and units. It is kept as JSON: fields
 * named as the columns of the interchange format in SI, codes as the program writes them. What has
 * no words is shown as it was kept.
 */
final class KeptFields {

  private static final MathContext DIGITS = new MathContext(6);
  private static final int CENTS = 2;
  private static final String VALUE = "value";
  private static final double LARGEST_SHOWN_WHOLE = 1e12;

  /** Fields that only repeat which thing it is. */
  private static final Set<String> REPEATED =
      Set.of("reference", "schedule", "effective_from", "code");

  private final JsonMapper json;
  private final Map<String, Column> columns;
  private final Words words;
  private final FigureText text;

  /**
   * @param columns columns by their SI names
   */
  KeptFields(JsonMapper json, Map<String, Column> columns, Words words, FigureText text) {
    this.json = json;
    this.columns = columns;
    this.words = words;
    this.text = text;
  }

  /**
   * What was kept of a new thing or, of one that changed, what changed.
   *
   * @param kind sort of thing
   * @param setting which setting it is; null when it is none
   * @param before what was kept before; empty for nothing
   * @param after what was kept after; empty for nothing
   */
  String say(String kind, @Nullable SettingName setting, String before, String after) {
    Map<String, JsonNode> was = fields(before);
    Map<String, JsonNode> is = fields(after);
    if (setting != null && is != null && is.containsKey(VALUE)) {
      return setting(kind, setting, was, is);
    }
    if (was == null || is == null) {
      return is == null ? plain(after) : after(kind, is);
    }
    return changes(kind, was, is);
  }

  /** The value of a setting, before the reason that was given for it. */
  private String setting(
      String kind,
      SettingName setting,
      @Nullable Map<String, JsonNode> was,
      Map<String, JsonNode> is) {
    JsonNode value = is.remove(VALUE);
    JsonNode before = was == null ? null : was.remove(VALUE);
    String now = value == null ? "" : SettingText.value(setting, value.asString(), words, text);
    String told =
        before == null || before.equals(value)
            ? now
            : arrow(SettingText.value(setting, before.asString(), words, text), now);
    String rest = was == null ? after(kind, is) : changes(kind, was, is);
    return rest.isEmpty() ? told : told + " · " + rest;
  }

  private String changes(String kind, Map<String, JsonNode> was, Map<String, JsonNode> is) {
    List<String> changed = new ArrayList<>();
    is.forEach(
        (name, value) -> {
          JsonNode old = was.get(name);
          if (!same(old, value)) {
            changed.add(
                label(kind, name)
                    + ": "
                    + arrow(
                        old == null ? words.of("history.nothing") : value(name, old),
                        value(name, value)));
          }
        });
    was.forEach(
        (name, old) -> {
          if (!is.containsKey(name)) {
            changed.add(
                label(kind, name) + ": " + arrow(value(name, old), words.of("history.nothing")));
          }
        });
    return String.join(" · ", changed);
  }

  private static String arrow(String was, String is) {
    return was + " → " + is;
  }

  private String after(String kind, Map<String, JsonNode> fields) {
    return fields.entrySet().stream()
        .map(field -> label(kind, field.getKey()) + ": " + value(field.getKey(), field.getValue()))
        .collect(Collectors.joining(" · "));
  }

  /** Numbers are the same whatever their trailing zeros. */
  private static boolean same(@Nullable JsonNode old, JsonNode value) {
    if (old != null && old.isNumber() && value.isNumber()) {
      return old.decimalValue().compareTo(value.decimalValue()) == 0;
    }
    return value.equals(old);
  }

  /**
   * Fields that are told, by their names as columns have them; null when it is no set of fields.
   */
  private @Nullable Map<String, JsonNode> fields(String kept) {
    try {
      JsonNode node = kept.isEmpty() ? null : json.readTree(kept);
      return node == null || !node.isObject() ? null : told(node);
    } catch (JacksonException e) {
      return null; // words, not fields
    }
  }

  private static Map<String, JsonNode> told(JsonNode node) {
    Map<String, JsonNode> told = new LinkedHashMap<>();
    node.properties()
        .forEach(
            field -> {
              JsonNode value = field.getValue();
              String name = snake(field.getKey());
              if (name.equals("version") && value.isObject()) {
                told.putAll(told(value));
              } else if (!isNothing(value) && !REPEATED.contains(name)) {
                told.put(name, value);
              }
            });
    return told;
  }

  private static boolean isNothing(JsonNode value) {
    return value.isNull()
        || value.isArray() && value.isEmpty()
        || value.isString() && Set.of("", "null").contains(value.asString());
  }

  /** {@code designWaterFlowLS} as columns are named: {@code design_water_flow_l_s}. */
  private static String snake(String name) {
    return name.replaceAll("([A-Z])", "_$1").replace(' ', '_').toLowerCase(Locale.ROOT);
  }

  private String plain(String kept) {
    try {
      JsonNode node = kept.isEmpty() ? null : json.readTree(kept);
      return node != null && node.isValueNode() ? value("", node) : kept;
    } catch (JacksonException e) {
      return kept;
    }
  }

  private String label(String kind, String name) {
    String own = words.or("history.field." + kind + "." + name, "");
    if (!own.isEmpty()) {
      return own;
    }
    Column column = columns.get(name);
    return column == null ? ColumnText.label(name, words) : ColumnText.label(column, words);
  }

  private String value(String name, JsonNode value) {
    if (value.isArray()) {
      return value.valueStream().map(each -> value(name, each)).collect(Collectors.joining("; "));
    }
    if (value.isObject()) {
      Map<String, JsonNode> parts = told(value);
      return parts.entrySet().stream()
          .map(
              part ->
                  parts.size() == 1
                      ? value(part.getKey(), part.getValue())
                      : label("", part.getKey()) + " " + value(part.getKey(), part.getValue()))
          .collect(Collectors.joining(", "));
    }
    if (value.isBoolean()) {
      return words.of("choice." + value.asBoolean());
    }
    return value.isNumber() ? number(name, value.decimalValue()) : said(name, value.asString());
  }

  private String number(String name, BigDecimal kept) {
    Column column = columns.get(name);
    Twin twin = column == null ? null : column.twin();
    boolean us = text.units() == UnitPreference.US;
    double value = twin != null && us ? twin.toUs(kept.doubleValue()) : kept.doubleValue();
    String unit = column == null ? "" : ColumnText.unit(column, text.units());
    BigDecimal shown =
        twin == null
            ? money(name, kept.stripTrailingZeros())
            : new BigDecimal(value).round(DIGITS).stripTrailingZeros();
    String digits =
        shown.abs().doubleValue() < LARGEST_SHOWN_WHOLE
            ? text.decimals(shown.doubleValue(), Math.max(0, shown.scale()))
            : shown.toPlainString();
    return unit.isEmpty() ? digits : digits + " " + unit;
  }

  /** An amount of money with its cents; any other number as it is. */
  private static BigDecimal money(String name, BigDecimal number) {
    boolean amount = name.endsWith("amount") || name.equals("minimum_charge");
    return amount && number.scale() < CENTS ? number.setScale(CENTS) : number;
  }

  private String said(String name, String kept) {
    try {
      if (kept.matches("\\d{4}-\\d\\d-\\d\\d")) {
        return text.day(LocalDate.parse(kept));
      }
      if (kept.matches("\\d{4}-\\d\\d-\\d\\dT.*Z")) {
        return text.moment(Instant.parse(kept), ZoneOffset.UTC) + " UTC";
      }
    } catch (DateTimeException e) {
      return kept;
    }
    if (kept.matches("\\d\\d:\\d\\d:00")) {
      return kept.substring(0, 5);
    }
    String code = kept.toLowerCase(Locale.ROOT).replace('_', '-');
    for (String key : List.of("history.value." + name + "." + code, "choice." + code)) {
      String known = words.or(key, "");
      if (!known.isEmpty()) {
        return known;
      }
    }
    return words.or("role." + kept, words.or("scope." + kept, kept));
  }
}
