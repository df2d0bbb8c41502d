package towerledger.tariff.owrs;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.dataformat.yaml.YAMLFactory;
import tools.jackson.dataformat.yaml.YAMLParser;
import towerledger.tariff.TariffException;

/**
 * Reads YAML into parts, numbers digit by digit so that 3.10 stays decimal. Size, depth and number
 * of values are limited; aliases and type tags are not followed; a key given twice with different
 * values becomes unreadable, but for the rate structure, whose classes are joined.
 */
final class YamlTree {

  /** Largest document accepted; the largest published rate file is a tenth of it. */
  static final int LARGEST_DOCUMENT_CHARACTERS = 500_000;

  /** Some documents begin their rate structure anew for every class; the classes are joined. */
  static final String STRUCTURE = "rate_structure";

  private static final int DEEPEST_NESTING = 20;
  private static final int LONGEST_NUMBER = 40;

  private static final YAMLFactory YAML =
      YAMLFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(DEEPEST_NESTING)
                  .maxNumberLength(LONGEST_NUMBER)
                  .maxDocumentLength(LARGEST_DOCUMENT_CHARACTERS)
                  .build())
          .build();

  private YamlTree() {}

  /**
   * The document as parts.
   *
   * @throws TariffException when it is too large or no YAML, naming the line
   */
  static Part read(String document) {
    if (document.length() > LARGEST_DOCUMENT_CHARACTERS) {
      throw new TariffException(
          "OWRS",
          "the document has %d characters, more than %d; split it by utility"
              .formatted(document.length(), LARGEST_DOCUMENT_CHARACTERS));
    }
    String text = document.startsWith("\uFEFF") ? document.substring(1) : document;
    try (JsonParser parser = YAML.createParser(ObjectReadContext.empty(), text)) {
      JsonToken token = parser.nextToken();
      return token == null ? new Part.Empty() : read(parser, token);
    } catch (JacksonException e) {
      throw new TariffException("OWRS", notYaml(e));
    }
  }

  private static String notYaml(JacksonException e) {
    String message = e.getOriginalMessage() == null ? "" : e.getOriginalMessage();
    String first = message.lines().map(String::strip).findFirst().orElse("");
    String hint =
        message.contains("\\t") || message.contains("TAB")
            ? "indent with spaces, not with tabs"
            : "mend the indentation or quoting there";
    int line =
        Pattern.compile("line (\\d+)")
            .matcher(message)
            .results()
            .mapToInt(found -> Integer.parseInt(found.group(1)))
            .max()
            .orElse(e.getLocation() == null ? 0 : e.getLocation().getLineNr());
    return "the document is not YAML at line %d (%s); %s".formatted(line, first, hint);
  }

  private static Part read(JsonParser parser, JsonToken token) {
    if (parser instanceof YAMLParser yaml && yaml.isCurrentAlias()) {
      return new Part.Unreadable("it is a YAML alias; write the values out");
    }
    return switch (token) {
      case START_OBJECT -> readMap(parser);
      case START_ARRAY -> readList(parser);
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> number(parser.getString());
      case VALUE_NULL -> new Part.Empty();
      default -> text(parser.getString());
    };
  }

  private static Part readMap(JsonParser parser) {
    Map<String, Part> entries = new LinkedHashMap<>();
    while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
      String key = plain(parser.currentName());
      Part value = read(parser, parser.nextToken());
      if (key.equals(STRUCTURE)
          && value instanceof Part.Entries more
          && entries.get(key) instanceof Part.Entries known) {
        Map<String, Part> classes = new LinkedHashMap<>(known.entries());
        more.entries().forEach((name, part) -> put(classes, name, part));
        value = new Part.Entries(classes);
        entries.remove(key);
      }
      put(entries, key, value);
    }
    return new Part.Entries(entries);
  }

  /** Adds a value; one key with two different values has none that could be trusted. */
  static void put(Map<String, Part> entries, String key, Part value) {
    Part earlier = entries.get(key);
    entries.put(
        key,
        earlier == null || earlier.equals(value)
            ? value
            : new Part.Unreadable("it is given twice with different values; delete the wrong one"));
  }

  /** Spreadsheets leave spaces that do not break behind. */
  private static String plain(String text) {
    return text.replace('\u00A0', ' ').strip();
  }

  private static Part readList(JsonParser parser) {
    List<Part> items = new ArrayList<>();
    for (JsonToken token = parser.nextToken();
        token != JsonToken.END_ARRAY;
        token = parser.nextToken()) {
      items.add(read(parser, token));
    }
    return new Part.Items(items);
  }

  private static Part text(String text) {
    String plain = plain(text);
    if (plain.isEmpty()) {
      return new Part.Empty();
    }
    return plain.matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)") ? number(plain) : new Part.Text(plain);
  }

  private static Part number(String text) {
    if (text.length() > LONGEST_NUMBER
        || !text.matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d{1,2})?")) {
      return new Part.Unreadable(
          "'%s' is not a decimal number; write for instance 3.10".formatted(text));
    }
    return new Part.Amount(new BigDecimal(text));
  }
}
