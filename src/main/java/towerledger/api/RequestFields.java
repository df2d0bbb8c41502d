package towerledger.api;

import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Units;

/**
 * The fields of one object of a request, read by their names of the interchange format: a field
 * whose name ends in a US unit may be given by its SI twin instead, never by both.
 */
final class RequestFields {

  /** A US unit, its SI twin and the way from one to the other. */
  private record Twin(String us, String si, DoubleUnaryOperator toSi) {}

  private static final Twin[] TWINS = {
    new Twin("_f", "_c", Units::celsius),
    new Twin("_inhg", "_kpa", v -> v * Units.PASCALS_PER_INCH_HG / 1000),
    new Twin("_gpm", "_l_s", v -> v * Units.LITRES_PER_US_GALLON / 60),
    new Twin("_cfm", "_m3_s", v -> v * Units.LITRES_PER_CUBIC_FOOT / 1000 / 60),
    new Twin("_tons", "_kw", v -> v * Units.WATTS_PER_TOWER_TON / 1000),
    new Twin("_mmbtu_per_hour", "_gj_per_hour", v -> v * Units.JOULES_PER_BTU / 1000)
  };

  private final String object;
  private final Map<String, @Nullable Object> given;
  private final Set<String> known = new TreeSet<>();

  /**
   * @param object what the fields belong to, for messages
   * @param given the fields as sent; null counts as absent
   */
  RequestFields(String object, @Nullable Map<String, @Nullable Object> given) {
    this.object = object;
    this.given = given == null ? Map.of() : given;
  }

  /** Whether any of some fields, or their twins, is given. */
  boolean tellsAny(String... names) {
    for (String name : names) {
      if (find(name).isPresent()) {
        return true;
      }
    }
    return false;
  }

  /**
   * A number in SI (°C, kPa, L/s, m³/s, kW, GJ/h), or as given where the name carries no unit.
   *
   * @param name name of the field with its US unit
   * @throws FieldProblem when the field is given twice or is no number
   */
  OptionalDouble find(String name) {
    Twin twin = twin(name);
    if (twin == null) {
      return number(name);
    }
    String siName = name.substring(0, name.length() - twin.us.length()) + twin.si;
    OptionalDouble us = number(name);
    OptionalDouble si = number(siName);
    if (us.isPresent() && si.isPresent()) {
      throw new FieldProblem(
          "%s gives both '%s' and '%s'; give one of them.".formatted(object, name, siName));
    }
    return us.isPresent() ? OptionalDouble.of(twin.toSi.applyAsDouble(us.getAsDouble())) : si;
  }

  /**
   * A number that must be there, in SI.
   *
   * @throws FieldProblem when it is not
   */
  double require(String name) {
    return find(name)
        .orElseThrow(
            () ->
                new FieldProblem(
                    "%s needs '%s'%s."
                        .formatted(object, name, twin(name) == null ? "" : " or its SI twin")));
  }

  /** A text, or null when absent. */
  @Nullable String findText(String name) {
    known.add(name);
    Object value = given.get(name);
    if (value == null || value.toString().isBlank()) {
      return null;
    }
    return value.toString().strip();
  }

  /** Lets fields pass that mean nothing here. */
  void ignore(Iterable<String> names) {
    for (String name : names) {
      known.add(name);
      Twin twin = twin(name);
      if (twin != null) {
        known.add(name.substring(0, name.length() - twin.us.length()) + twin.si);
      }
    }
  }

  /**
   * Refuses what was not asked for.
   *
   * @throws FieldProblem naming the fields that are not known and those that are
   */
  void requireNothingElse() {
    Set<String> unknown = new TreeSet<>(given.keySet());
    unknown.removeAll(known);
    if (!unknown.isEmpty()) {
      throw new FieldProblem(
          "%s has fields that are not known here: %s; there are %s."
              .formatted(object, String.join(", ", unknown), String.join(", ", known)));
    }
  }

  private OptionalDouble number(String name) {
    known.add(name);
    Object value = given.get(name);
    if (value == null || (value instanceof String text && text.isBlank())) {
      return OptionalDouble.empty();
    }
    double number;
    if (value instanceof Number n) {
      number = n.doubleValue();
    } else {
      try {
        number = Double.parseDouble(value.toString().strip());
      } catch (NumberFormatException e) {
        throw new FieldProblem(
            "%s gives '%s' for '%s', which is no number."
                .formatted(object, shortened(value.toString()), name));
      }
    }
    if (!Double.isFinite(number)) {
      throw new FieldProblem("%s gives no finite number for '%s'.".formatted(object, name));
    }
    return OptionalDouble.of(number);
  }

  private static @Nullable Twin twin(String name) {
    Twin longest = null;
    for (Twin twin : TWINS) {
      if (name.toLowerCase(Locale.ROOT).endsWith(twin.us)
          && (longest == null || twin.us.length() > longest.us.length())) {
        longest = twin;
      }
    }
    return longest;
  }

  private static String shortened(String value) {
    return value.length() <= 40 ? value : value.substring(0, 40) + "…";
  }
}
