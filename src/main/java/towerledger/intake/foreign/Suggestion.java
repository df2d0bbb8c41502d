package towerledger.intake.foreign;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;

/**
 * Guesses from its header and first rows how a foreign table maps, for a person to look over. A
 * date that can be read in two ways is left open and asked for.
 */
final class Suggestion {

  private static final Pattern UNIT = Pattern.compile("[(\\[]\\s*([^)\\]]+?)\\s*[)\\]]\\s*$");

  /** Words that stand over columns in practice (common practice, no source). */
  private static final Map<String, List<String>> WORDS =
      Map.ofEntries(
          Map.entry(
              "meter",
              List.of("meter", "meterid", "meterno", "meternumber", "metercode", "metername")),
          Map.entry(
              "system", List.of("system", "systemid", "tower", "towerid", "unit", "equipment")),
          Map.entry(
              "read_at",
              List.of(
                  "readat",
                  "date",
                  "readdate",
                  "readingdate",
                  "datetime",
                  "timestamp",
                  "dateread",
                  "datetimeread")),
          Map.entry("taken_at", List.of("takenat", "date", "sampledate", "datetime", "timestamp")),
          Map.entry(
              "start", List.of("start", "date", "datetime", "timestamp", "intervalstart", "from")),
          Map.entry("hour_start", List.of("hourstart", "date", "datetime", "timestamp")),
          Map.entry(
              "register",
              List.of("register", "reading", "read", "meterreading", "value", "index", "counter")),
          Map.entry(
              "volume_gal",
              List.of("volume", "usage", "consumption", "gallons", "flow", "value", "amount")),
          Map.entry("minutes", List.of("minutes", "interval", "duration", "intervalminutes")),
          Map.entry("note", List.of("note", "notes", "comment", "comments", "remarks")),
          Map.entry("kind", List.of("kind", "readtype", "readingtype")),
          Map.entry("supply_psi", List.of("supply", "supplypressure", "pressure", "psi")),
          Map.entry(
              "makeup_conductivity_us_cm", List.of("makeupconductivity", "makeupcond", "makeupus")),
          Map.entry(
              "basin_conductivity_us_cm",
              List.of("basinconductivity", "towerconductivity", "conductivity", "basincond")),
          Map.entry("dry_bulb_f", List.of("drybulb", "temperature", "temp", "airtemperature")),
          Map.entry("dew_point_f", List.of("dewpoint", "dewpt")),
          Map.entry("relative_humidity_percent", List.of("relativehumidity", "rh", "humidity")));

  private static final Map<String, String> VOLUME_UNITS =
      Map.ofEntries(
          Map.entry("gal", "gal"),
          Map.entry("gallons", "gal"),
          Map.entry("kgal", "kgal"),
          Map.entry("1000gal", "kgal"),
          Map.entry("m3", "m3"),
          Map.entry("m³", "m3"),
          Map.entry("l", "l"),
          Map.entry("litres", "l"),
          Map.entry("liters", "l"),
          Map.entry("ccf", "ccf"),
          Map.entry("hcf", "ccf"),
          Map.entry("ft3", "ft3"),
          Map.entry("cf", "ft3"));

  private final Columns columns;
  private final List<String> header;
  private final List<List<String>> sample;
  private final List<String> questions = new ArrayList<>();

  Suggestion(Columns columns, List<String> header, List<List<String>> sample) {
    this.columns = columns;
    this.header = header;
    this.sample = sample;
  }

  /** What a person has to settle before the table can be taken. */
  List<String> questions() {
    return List.copyOf(questions);
  }

  List<ForeignColumn> columns() {
    Map<String, ForeignColumn> found = new LinkedHashMap<>();
    List<String> free = new ArrayList<>(header);
    for (Column column : columns.all()) {
      Optional<String> name = find(column, free);
      if (name.isEmpty()) {
        if (column.required()) {
          questions.add(
              "no column of the table was recognised as '%s', which every row needs; map one or give a constant"
                  .formatted(column.name()));
        }
        continue;
      }
      free.remove(name.get());
      found.put(column.name(), fitted(column, name.get(), free));
    }
    return List.copyOf(found.values());
  }

  private Optional<String> find(Column column, List<String> free) {
    List<String> words = new ArrayList<>(List.of(letters(column.name()), letters(column.siName())));
    words.addAll(WORDS.getOrDefault(column.name(), List.of()));
    for (String word : words) {
      for (String name : free) {
        if (letters(withoutUnit(name)).equals(word) || letters(name).equals(word)) {
          return Optional.of(name);
        }
      }
    }
    return Optional.empty();
  }

  private ForeignColumn fitted(Column column, String name, List<String> free) {
    ForeignColumn fitted = ForeignColumn.from(column.name(), name);
    String unit = unit(name);
    if (column.name().endsWith("_gal") && unit != null && VOLUME_UNITS.containsKey(unit)) {
      return fitted.withUnit(VOLUME_UNITS.get(unit));
    }
    if (unit != null && column.twin() != null && isSi(unit)) {
      return ForeignColumn.from(column.siName(), name);
    }
    boolean moment = List.of("read_at", "taken_at", "start", "hour_start").contains(column.name());
    return moment ? dated(fitted, name, free) : fitted;
  }

  private ForeignColumn dated(ForeignColumn column, String name, List<String> free) {
    ForeignColumn dated = column;
    Optional<String> time =
        letters(name).endsWith("date")
            ? free.stream()
                .filter(n -> List.of("time", "timeread").contains(letters(n)))
                .findFirst()
            : Optional.empty();
    if (time.isPresent()) {
      free.remove(time.get());
      dated = dated.withAnd(time.get());
    }
    List<String> written = new ArrayList<>();
    int at = header.indexOf(name);
    int timeAt = time.map(header::indexOf).orElse(-1);
    for (List<String> row : sample) {
      String text =
          ((at < row.size() ? row.get(at) : "")
                  + " "
                  + (timeAt >= 0 && timeAt < row.size() ? row.get(timeAt) : ""))
              .strip();
      if (!text.isEmpty()) {
        written.add(text);
      }
    }
    List<String> patterns = DatePatterns.candidates(written);
    if (patterns.size() == 1) {
      return dated.withPattern(patterns.get(0));
    }
    if (patterns.size() > 1) {
      questions.add(
          "dates such as '%s' in '%s' can be read as any of %s; choose one as its pattern"
              .formatted(written.get(0), name, patterns));
    } else if (!written.isEmpty() && !written.stream().allMatch(DatePatterns::isIso)) {
      questions.add(
          "dates such as '%s' in '%s' follow no pattern known here; give one, such as M/d/uuuu H:mm"
              .formatted(written.get(0), name));
    }
    return dated;
  }

  private static boolean isSi(String unit) {
    return List.of("c", "°c", "degc", "kpa", "l", "mm", "m", "kw", "kwh", "gj", "ls", "l/s")
        .contains(unit);
  }

  private static @Nullable String unit(String name) {
    Matcher matcher = UNIT.matcher(name);
    return matcher.find() ? matcher.group(1).toLowerCase(Locale.ROOT).replace(" ", "") : null;
  }

  private static String withoutUnit(String name) {
    return UNIT.matcher(name).replaceFirst("");
  }

  private static String letters(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]", "");
  }
}
