package towerledger.tariff.owrs;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * A part chosen by other values.
 *
 * @param dependsOn names of the values it is chosen by, in the order their keys are joined
 * @param values parts by joined key
 */
record Choice(List<String> dependsOn, Map<String, Part> values) {

  /**
   * @throws IllegalArgumentException when the map is no choice
   */
  static Choice of(Part.Entries entries) {
    if (!(entries.entries().get("values") instanceof Part.Entries values)) {
      throw new IllegalArgumentException(
          "it is a map without 'values' by key; a choice has depends_on and values");
    }
    List<String> dependsOn = new ArrayList<>();
    Part names = entries.entries().get("depends_on");
    if (names instanceof Part.Text text) {
      Stream.of(text.text().split("[,|]"))
          .map(String::strip)
          .filter(name -> !name.isEmpty())
          .forEach(dependsOn::add);
    } else if (names instanceof Part.Items items) {
      for (Part item : items.items()) {
        if (item instanceof Part.Text text) {
          dependsOn.add(text.text());
        }
      }
    }
    if (dependsOn.isEmpty()) {
      throw new IllegalArgumentException("it has values but no depends_on that names their keys");
    }
    return new Choice(dependsOn, values.entries());
  }

  /**
   * The part for a joined key: spelled exactly so, else the one spelled alike.
   *
   * @throws IllegalArgumentException naming the keys there are
   */
  Part choose(String key) {
    Part exact = values.get(key);
    if (exact != null) {
      return exact;
    }
    String canonical = ChoiceKey.canonical(key);
    List<Part> alike =
        values.entrySet().stream()
            .filter(entry -> ChoiceKey.canonical(entry.getKey()).equals(canonical))
            .map(Map.Entry::getValue)
            .distinct()
            .toList();
    if (alike.size() == 1) {
      return alike.get(0);
    }
    throw new IllegalArgumentException(
        alike.isEmpty()
            ? "it has no value for %s '%s'; it has %s"
                .formatted(String.join("|", dependsOn), key, values.keySet())
            : "it has different values for spellings of %s '%s'; spell it as one of %s"
                .formatted(String.join("|", dependsOn), key, values.keySet()));
  }
}
