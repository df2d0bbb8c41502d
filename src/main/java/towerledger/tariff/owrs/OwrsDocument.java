package towerledger.tariff.owrs;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.TariffException;

/**
 * A rate document in the Open Water Rate Specification: who bills, from when, how often, in which
 * unit, and the rates of its customer classes. Format: the public repository {@code
 * California-Data-Collaborative/Open-Water-Rate-Specification}, README and template files.
 */
public final class OwrsDocument {

  private static final Pattern MONTH_DAY_YEAR =
      Pattern.compile("(\\d{1,2})[/-](\\d{1,2})[/-](\\d{4})");

  /** The longest published class has a tenth of these parts. */
  private static final int MOST_PARTS = 500;

  private final Map<String, Part> metadata;
  private final Map<String, OwrsClass> classes;
  private final List<String> notes;

  private OwrsDocument(
      Map<String, Part> metadata, Map<String, OwrsClass> classes, List<String> notes) {
    this.metadata = metadata;
    this.classes = Collections.unmodifiableMap(classes);
    this.notes = notes;
  }

  /**
   * Reads a document.
   *
   * @param yaml at most half a million characters
   * @throws TariffException when it is no YAML or has no rate_structure with customer classes
   */
  public static OwrsDocument read(String yaml) {
    if (!(YamlTree.read(yaml) instanceof Part.Entries root)) {
      throw new TariffException(
          "OWRS", "the document is empty or no map; it needs metadata and rate_structure");
    }
    Map<String, Part> metadata =
        root.entries().get("metadata") instanceof Part.Entries entries
            ? entries.entries()
            : Map.of();
    if (!(root.entries().get(YamlTree.STRUCTURE) instanceof Part.Entries structure)) {
      throw new TariffException(
          "OWRS",
          "the document has no rate_structure with customer classes; its top-level keys are %s"
              .formatted(root.entries().keySet()));
    }
    List<String> notes = new ArrayList<>();
    OwrsDocument document = new OwrsDocument(metadata, new LinkedHashMap<>(), notes);
    Map<String, OwrsClass> classes = new LinkedHashMap<>();
    String unit = document.billUnitText();
    structure
        .entries()
        .forEach(
            (name, written) -> {
              Part part = joined(written);
              if (part instanceof Part.Entries entries && entries.entries().size() > MOST_PARTS) {
                notes.add(
                    "customer class %s has more than %d parts and is not read"
                        .formatted(name, MOST_PARTS));
              } else if (part instanceof Part.Entries entries) {
                classes.put(name, new OwrsClass(name, entries.entries(), unit));
              } else {
                notes.add(
                    "customer class %s holds no rates%s"
                        .formatted(
                            name,
                            part instanceof Part.Unreadable unreadable
                                ? ": " + unreadable.reason()
                                : ""));
              }
            });
    if (document.findBillUnit().isEmpty()) {
      notes.add("bill_unit '%s' is not a unit of volume known here".formatted(unit));
    }
    if (document.findMonthsPerBill().isEmpty()) {
      notes.add(
          "bill_frequency '%s' is not known; known are monthly, bi-monthly, quarterly,"
                  .formatted(document.text("bill_frequency", ""))
              + " semi-annually and annually");
    }
    if (document.findEffectiveDate().isEmpty()) {
      notes.add(
          "effective_date '%s' is not a date; write YYYY-MM-DD or MM/DD/YYYY"
              .formatted(document.text("effective_date", "")));
    }
    return new OwrsDocument(metadata, classes, List.copyOf(notes));
  }

  /** Early documents write a class as a list of its parts, each a map of one. */
  private static Part joined(Part part) {
    if (!(part instanceof Part.Items items)
        || items.items().isEmpty()
        || !items.items().stream().allMatch(Part.Entries.class::isInstance)) {
      return part;
    }
    Map<String, Part> parts = new LinkedHashMap<>();
    for (Part item : items.items()) {
      ((Part.Entries) item).entries().forEach((key, value) -> YamlTree.put(parts, key, value));
    }
    return new Part.Entries(parts);
  }

  /** Name of the utility; empty when not given. */
  public String utilityName() {
    return text("utility_name", "");
  }

  /** First day the rates hold; empty when not given or not readable. */
  public Optional<LocalDate> findEffectiveDate() {
    String text = text("effective_date", "");
    Matcher american = MONTH_DAY_YEAR.matcher(text);
    try {
      return Optional.of(
          american.matches()
              ? LocalDate.of(
                  Integer.parseInt(american.group(3)),
                  Integer.parseInt(american.group(1)),
                  Integer.parseInt(american.group(2)))
              : LocalDate.parse(text.length() > 10 ? text.substring(0, 10) : text));
    } catch (DateTimeException e) {
      return Optional.empty(); // said in the notes
    }
  }

  /** Months a bill covers; empty when the frequency is not known. */
  public Optional<Integer> findMonthsPerBill() {
    return switch (letters(text("bill_frequency", ""))) {
      case "monthly", "month" -> Optional.of(1);
      case "bimonthly", "everytwomonths" -> Optional.of(2);
      case "quarterly" -> Optional.of(3);
      case "semiannually", "semiannual", "biannually" -> Optional.of(6);
      case "annually", "annual", "yearly" -> Optional.of(12);
      default -> Optional.empty();
    };
  }

  /** Unit of usage and tiers; ccf when the document names none; empty when it is not known. */
  public Optional<VolumeUnit> findBillUnit() {
    return Optional.ofNullable(unit(letters(billUnitText())));
  }

  /** Customer classes with rates, in the order of the document. */
  public List<String> classNames() {
    return List.copyOf(classes.keySet());
  }

  /** What could not be read in the document as a whole. */
  public List<String> notes() {
    return notes;
  }

  /**
   * A customer class; case and separators of its name are ignored, so NON-RESIDENTIAL finds
   * NON_RESIDENTIAL.
   *
   * @throws TariffException naming the classes there are
   */
  public OwrsClass getCustomerClass(String name) {
    OwrsClass exact = classes.get(name.strip());
    if (exact != null) {
      return exact;
    }
    List<OwrsClass> alike =
        classes.values().stream()
            .filter(candidate -> letters(candidate.name()).equals(letters(name)))
            .toList();
    if (alike.size() != 1) {
      throw new TariffException(
          "OWRS",
          "customer class '%s' is %s the document; it has %s"
              .formatted(name, alike.isEmpty() ? "not in" : "more than once in", classes.keySet()));
    }
    return alike.get(0);
  }

  private String billUnitText() {
    return text("bill_unit", "ccf");
  }

  private String text(String key, String otherwise) {
    Part part = metadata.get(key);
    if (part instanceof Part.Text text) {
      return text.text();
    }
    return part instanceof Part.Amount amount ? amount.value().toPlainString() : otherwise;
  }

  private static @Nullable VolumeUnit unit(String letters) {
    return switch (letters) {
      case "ccf", "hcf", "ccfs", "hundredcubicfeet", "100cubicfeet", "100cf" ->
          VolumeUnit.HUNDRED_CUBIC_FEET;
      case "cf", "ft3", "cubicfeet", "cubicfoot" -> VolumeUnit.CUBIC_FOOT;
      case "kgal", "kgals", "tgal", "1000gal", "1000gallons", "thousandgallons", "kilogallon" ->
          VolumeUnit.THOUSAND_US_GALLONS;
      case "gal", "gallon", "gallons" -> VolumeUnit.US_GALLON;
      case "kilolitre",
          "kiloliter",
          "kilolitres",
          "kiloliters",
          "kl",
          "m3",
          "cubicmetre",
          "cubicmeter",
          "cubicmeters" ->
          VolumeUnit.CUBIC_METRE;
      case "litre", "liter", "l" -> VolumeUnit.LITRE;
      default -> null;
    };
  }

  private static String letters(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]", "");
  }
}
