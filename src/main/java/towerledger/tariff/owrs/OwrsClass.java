package towerledger.tariff.owrs;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import towerledger.tariff.Bill;
import towerledger.tariff.RateVersion;
import towerledger.tariff.TariffException;

/**
 * The rates of one customer class. Parts may refer to parts further down; an input given by the
 * caller goes before a part of the same name, as a household's own budget goes before the formula
 * for it. Newer documents write {@code gpcd_commodity} where their formulas say {@code gpcd}: a
 * name also finds its part with such a suffix.
 */
public final class OwrsClass {

  /** Names of metered use, which is always counted in the document's bill_unit. */
  private static final Pattern USAGE =
      Pattern.compile("usage(_(ccf|hcf|kgal|kgals|gal|gallons|kl|kilolitre|m3|units))?");

  private final String name;
  private final Map<String, Part> parts;
  private final String unit;

  OwrsClass(String name, Map<String, Part> parts, String unit) {
    this.name = name;
    this.parts = parts;
    this.unit = unit;
  }

  /** Name of the class in the document. */
  public String name() {
    return name;
  }

  /**
   * Inputs the bill needs besides usage, with the values the document knows for those it chooses
   * by; an empty list where any number will do.
   */
  public Map<String, List<String>> inputs() {
    Map<String, Set<String>> found = new TreeMap<>();
    new Survey(found, new ArrayList<>()).visit("bill", "");
    Map<String, List<String>> inputs = new LinkedHashMap<>();
    found.forEach((input, values) -> inputs.put(input, List.copyOf(values)));
    return inputs;
  }

  /** What in the parts of the bill cannot be read, and why; empty when everything can. */
  public List<String> problems() {
    List<String> problems = new ArrayList<>();
    new Survey(new TreeMap<>(), problems).visit("bill", "");
    return List.copyOf(new LinkedHashSet<>(problems));
  }

  /**
   * The bill of a usage.
   *
   * @param inputs what the document chooses by or counts with: meter_size, season, budget …
   * @param usage units in the document's bill_unit, 0 or more
   * @throws TariffException when an input is missing or a part cannot be read, naming it
   */
  public Bill bill(Map<String, String> inputs, BigDecimal usage, Currency currency) {
    if (usage.signum() < 0) {
      throw new TariffException(
          "OWRS",
          "usage of %s is below 0; give the metered units".formatted(usage.toPlainString()));
    }
    return new Evaluation(this, inputs, usage).bill(currency);
  }

  /**
   * The rates as a version of a schedule, for given inputs: charges that do not depend on usage,
   * and one block table of everything that does.
   *
   * @param empty a version without rates that says from when, in which unit and how often is billed
   * @throws TariffException when an input is missing, a part cannot be read, or a part is neither
   *     fixed, in proportion to usage, nor in tiers
   */
  public RateVersion version(Map<String, String> inputs, RateVersion empty) {
    return new ScheduleVersion(this, inputs).fill(empty);
  }

  String unit() {
    return unit;
  }

  Map<String, Part> parts() {
    return parts;
  }

  static boolean isUsage(String name) {
    return USAGE.matcher(name.toLowerCase(Locale.ROOT)).matches();
  }

  /** The word before or after "tier_starts" and the like that belongs to a charge. */
  static String stem(String charge) {
    return charge.replaceFirst("^(variable|fixed)_", "").replaceFirst("_(charge|surcharge)$", "");
  }

  /** The key under which a name stands in the document, seen from a part of a stem. */
  Optional<String> findKey(String part, String stem) {
    for (String candidate : spellings(part, stem)) {
      if (parts.containsKey(candidate)) {
        return Optional.of(candidate);
      }
    }
    return Optional.empty();
  }

  static List<String> spellings(String part, String stem) {
    List<String> spellings = new ArrayList<>(List.of(part));
    if (!stem.isEmpty()) {
      spellings.add(part + "_" + stem);
      spellings.add(stem + "_" + part);
    }
    spellings.add(part + "_commodity");
    for (String suffix : List.of("_commodity", "_drought", "_sewer")) {
      if (part.endsWith(suffix)) {
        spellings.add(part.substring(0, part.length() - suffix.length()));
      }
    }
    return spellings;
  }

  static String stemOf(String key, String inherited) {
    for (String stem : List.of("commodity", "drought", "sewer")) {
      if (key.endsWith("_" + stem) || key.startsWith(stem + "_")) {
        return stem;
      }
    }
    return inherited;
  }

  /** Lists of tiers that belong to a charge; plain names belong to the commodity charge. */
  Optional<String> findTierKey(String what, String stem) {
    List<String> candidates = new ArrayList<>(List.of(what + "_" + stem, stem + "_" + what));
    if (stem.equals("commodity")) {
      candidates.add(what);
    }
    return candidates.stream().filter(parts::containsKey).findFirst();
  }

  static boolean isTiered(Part part) {
    return part instanceof Part.Text text && text.text().equalsIgnoreCase("tiered");
  }

  static boolean isBudget(Part part) {
    return part instanceof Part.Text text && text.text().equalsIgnoreCase("budget");
  }

  /** Walks everything a bill can reach, collecting inputs and what cannot be read. */
  private final class Survey {

    private final Map<String, Set<String>> inputs;
    private final List<String> problems;
    private final Set<String> seen = new LinkedHashSet<>();

    Survey(Map<String, Set<String>> inputs, List<String> problems) {
      this.inputs = inputs;
      this.problems = problems;
    }

    void visit(String part, String stem) {
      if (isUsage(part)) {
        return;
      }
      Optional<String> key = findKey(part, stem);
      if (key.isEmpty()) {
        if (part.equals("bill")) {
          problems.add("there is no 'bill' that says which parts are charged");
        } else {
          inputs.putIfAbsent(part, new LinkedHashSet<>());
        }
      } else if (seen.add(key.get())) {
        visit(key.get(), parts.get(key.get()), stemOf(key.get(), stem));
      }
    }

    private void visit(String key, @Nullable Part part, String stem) {
      if (part == null || part instanceof Part.Empty) {
        problems.add("%s is empty".formatted(key));
      } else if (part instanceof Part.Unreadable unreadable) {
        problems.add("%s: %s".formatted(key, unreadable.reason()));
      } else if (isTiered(part) || isBudget(part)) {
        visitTiers(key, isBudget(part));
      } else if (part instanceof Part.Text text) {
        visitFormula(key, text.text(), stem);
      } else if (part instanceof Part.Items items) {
        items.items().forEach(item -> visitItem(key, item, stem));
      } else if (part instanceof Part.Entries entries) {
        visitChoice(key, entries, stem);
      }
    }

    private void visitItem(String key, Part item, String stem) {
      if (!(item instanceof Part.Text text && text.text().endsWith("%"))) {
        visit(key, item, stem);
      }
    }

    private void visitFormula(String key, String formula, String stem) {
      try {
        Formula.parse(formula).names().forEach(used -> visit(used, stem));
      } catch (IllegalArgumentException e) {
        problems.add("%s: %s".formatted(key, e.getMessage()));
      }
    }

    private void visitTiers(String key, boolean budget) {
      String stem = stem(key);
      for (String what : List.of("tier_starts", "tier_prices")) {
        findTierKey(what, stem)
            .ifPresentOrElse(
                found -> visit(found, parts.get(found), stem),
                () -> problems.add("%s is in tiers but has no %s_%s".formatted(key, what, stem)));
      }
      if (budget) {
        visit("budget", stem);
      }
    }

    private void visitChoice(String key, Part.Entries entries, String stem) {
      try {
        Choice choice = Choice.of(entries);
        for (String input : choice.dependsOn()) {
          if (findKey(input, stem).isEmpty()) {
            Set<String> values = inputs.computeIfAbsent(input, any -> new LinkedHashSet<>());
            if (choice.dependsOn().size() == 1) {
              values.addAll(choice.values().keySet());
            }
          }
        }
        choice.values().forEach((value, part) -> visit(key + "[" + value + "]", part, stem));
      } catch (IllegalArgumentException e) {
        problems.add("%s: %s".formatted(key, e.getMessage()));
      }
    }
  }
}
