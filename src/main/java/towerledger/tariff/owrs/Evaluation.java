package towerledger.tariff.owrs;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Currency;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Money;
import towerledger.tariff.Bill;
import towerledger.tariff.BillLine;
import towerledger.tariff.Service;
import towerledger.tariff.TariffException;

/** One usage under one set of inputs: every part is worked out when a formula asks for it. */
final class Evaluation {

  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

  private final OwrsClass rates;
  private final Map<String, String> inputs;
  private final BigDecimal usage;
  private final Map<String, BigDecimal> known = new HashMap<>();
  private final Set<String> open = new LinkedHashSet<>();

  Evaluation(OwrsClass rates, Map<String, String> inputs, BigDecimal usage) {
    this.rates = rates;
    this.inputs = inputs;
    this.usage = usage;
  }

  /** The same rates and inputs with another usage. */
  Evaluation withUsage(long units) {
    return new Evaluation(rates, inputs, BigDecimal.valueOf(units));
  }

  Bill bill(Currency currency) {
    List<BillLine> lines = new ArrayList<>();
    for (Formula term : terms()) {
      addLines(term, currency, lines);
    }
    List<String> notes = new ArrayList<>();
    Set<String> charged = new LinkedHashSet<>(known.keySet());
    rates
        .parts()
        .forEach(
            (key, part) -> {
              if (key.matches(".*_(charge|surcharge)")
                  && !charged.contains(key)
                  && !(part instanceof Part.Amount amount && amount.value().signum() == 0)) {
                notes.add("%s is in the document but not in its bill; not charged".formatted(key));
              }
            });
    Bill bill = Bill.of(lines, currency, notes);
    if (usage.signum() > 0 && bill.exact().amount().signum() == 0) {
      notes.add("all rates of class %s are zero in the document".formatted(rates.name()));
    }
    return new Bill(bill.lines(), bill.total(), notes);
  }

  /** The terms the bill adds up. */
  List<Formula> terms() {
    Part bill = rates.parts().get("bill");
    if (bill == null) {
      throw refuse("bill", "it is missing; the document has to say which parts are charged");
    }
    if (bill instanceof Part.Text text) {
      return formula("bill", text.text()).terms();
    }
    return List.of(formula("bill", "bill"));
  }

  /** Tiers of a term that is nothing but a charge in tiers. */
  Optional<Tiers> findTiers(Formula term) {
    Optional<String> key = rates.findKey(term.name(), "");
    if (key.isEmpty() || findInput(key.get(), "") != null) {
      return Optional.empty();
    }
    Part part = rates.parts().get(key.get());
    return part != null && (OwrsClass.isTiered(part) || OwrsClass.isBudget(part))
        ? Optional.of(tiers(key.get(), OwrsClass.isBudget(part)))
        : Optional.empty();
  }

  BigDecimal value(Formula term) {
    return calculate("bill", term, "");
  }

  private void addLines(Formula term, Currency currency, List<BillLine> lines) {
    String name = term.name().isEmpty() ? term.toString() : term.name();
    Service service = name.matches(".*(sewer|wastewater).*") ? Service.SEWER : Service.WATER;
    BigDecimal amount = value(term);
    Optional<Tiers> tiers = findTiers(term);
    if (tiers.isPresent()) {
      List<BigDecimal> quantities = tiers.get().quantities(usage);
      for (int i = 0; i < quantities.size(); i++) {
        BigDecimal price = tiers.get().prices().get(i);
        lines.add(
            new BillLine(
                service,
                BillLine.Kind.BLOCK,
                "%s, tier %d".formatted(name, i + 1),
                quantities.get(i),
                rates.unit(),
                price,
                Money.of(quantities.get(i).multiply(price), currency),
                tiers.get().rule(i)));
      }
      return;
    }
    BigDecimal fixed = withUsage(0).value(term);
    BigDecimal rate = withUsage(1).value(term).subtract(fixed);
    boolean proportional =
        fixed.signum() == 0 && rate.signum() != 0 && rate.multiply(usage).compareTo(amount) == 0;
    boolean constant = fixed.compareTo(amount) == 0 && rate.signum() == 0;
    BigDecimal quantity = null;
    BigDecimal price = null;
    if (proportional) {
      quantity = usage;
      price = rate;
    } else if (constant) {
      quantity = BigDecimal.ONE;
      price = amount;
    }
    lines.add(
        new BillLine(
            service,
            constant ? BillLine.Kind.CHARGE : BillLine.Kind.PART,
            name,
            quantity,
            proportional ? rates.unit() : "",
            price,
            Money.of(amount, currency),
            rates.parts().get(name) instanceof Part.Text text ? text.text() : ""));
  }

  private BigDecimal amount(String name, String stem) {
    if (OwrsClass.isUsage(name)) {
      return usage;
    }
    String input = findInput(name, stem);
    if (input != null) {
      rates.findKey(name, stem).ifPresent(key -> known.put(key, number(name, input)));
      return number(name, input);
    }
    String key =
        rates
            .findKey(name, stem)
            .orElseThrow(
                () ->
                    new TariffException(
                        "OWRS",
                        "class %s needs the input '%s', which is neither given nor in the document"
                            .formatted(rates.name(), name)));
    BigDecimal value = known.get(key);
    if (value == null) {
      if (!open.add(key)) {
        throw refuse(key, "it refers back to itself: %s".formatted(String.join(" → ", open)));
      }
      value = amount(key, part(key), OwrsClass.stemOf(key, stem));
      open.remove(key);
      known.put(key, value);
    }
    return value;
  }

  private BigDecimal amount(String key, Part part, String stem) {
    if (part instanceof Part.Amount amount) {
      return amount.value();
    }
    if (part instanceof Part.Entries entries) {
      return amount(key, choose(key, entries, stem), stem);
    }
    if (part instanceof Part.Items items) {
      if (items.items().size() != 1) {
        throw refuse(
            key, "it is a list of %d where one number is needed".formatted(items.items().size()));
      }
      return amount(key, items.items().get(0), stem);
    }
    if (part instanceof Part.Unreadable unreadable) {
      throw refuse(key, unreadable.reason());
    }
    if (!(part instanceof Part.Text text)) {
      throw refuse(key, "it is empty; give its value");
    }
    if (OwrsClass.isTiered(part) || OwrsClass.isBudget(part)) {
      return tiers(key, OwrsClass.isBudget(part)).amount(usage);
    }
    return calculate(key, formula(key, text.text()), stem);
  }

  private BigDecimal calculate(String key, Formula formula, String stem) {
    try {
      return formula.value(name -> amount(name, stem));
    } catch (IllegalArgumentException e) {
      throw refuse(key, String.valueOf(e.getMessage()));
    }
  }

  private Part choose(String key, Part.Entries entries, String stem) {
    try {
      Choice choice = Choice.of(entries);
      List<String> values = new ArrayList<>();
      for (String name : choice.dependsOn()) {
        values.add(chosen(key, name, stem, choice));
      }
      return choice.choose(String.join("|", values));
    } catch (IllegalArgumentException e) {
      throw refuse(key, String.valueOf(e.getMessage()));
    }
  }

  private String chosen(String key, String name, String stem, Choice choice) {
    String input = findInput(name, stem);
    if (input != null) {
      return input.strip();
    }
    Optional<String> found = rates.findKey(name, stem);
    if (found.isPresent()) {
      Part part = part(found.get());
      return part instanceof Part.Text text
          ? text.text()
          : amount(name, stem).stripTrailingZeros().toPlainString();
    }
    throw refuse(
        key,
        "it depends on %s, which is not given; give one of %s"
            .formatted(name, choice.values().keySet()));
  }

  private Tiers tiers(String charge, boolean budget) {
    String stem = OwrsClass.stem(charge);
    List<Part> starts = tierList(charge, "tier_starts", stem);
    List<Part> prices = tierList(charge, "tier_prices", stem);
    List<BigDecimal> from = new ArrayList<>();
    List<BigDecimal> rate = new ArrayList<>();
    for (Part start : starts) {
      from.add(start(charge, start, stem, budget));
    }
    for (Part price : prices) {
      rate.add(amount(charge, price, stem));
    }
    try {
      return budget ? Tiers.ofBudget(from, rate) : Tiers.of(from, rate);
    } catch (IllegalArgumentException e) {
      throw refuse(charge, String.valueOf(e.getMessage()));
    }
  }

  private BigDecimal start(String charge, Part start, String stem, boolean budget) {
    if (start instanceof Part.Text text && text.text().endsWith("%")) {
      if (!budget) {
        throw refuse(
            charge, "tier start '%s' needs the keyword Budget, not Tiered".formatted(text.text()));
      }
      String percent = text.text().substring(0, text.text().length() - 1).strip();
      return amount("budget", stem).multiply(number(charge, percent)).divide(HUNDRED);
    }
    return amount(charge, start, stem);
  }

  private List<Part> tierList(String charge, String what, String stem) {
    String key =
        rates
            .findTierKey(what, stem)
            .orElseThrow(
                () -> refuse(charge, "it is in tiers but has no %s_%s".formatted(what, stem)));
    Part part = part(key);
    if (part instanceof Part.Entries entries) {
      part = choose(key, entries, stem);
    }
    if (part instanceof Part.Unreadable unreadable) {
      throw refuse(key, unreadable.reason());
    }
    return part instanceof Part.Items items ? items.items() : List.of(part);
  }

  private Part part(String key) {
    Part part = rates.parts().get(key);
    return part == null ? new Part.Empty() : part;
  }

  private @Nullable String findInput(String name, String stem) {
    for (String spelling : OwrsClass.spellings(name, stem)) {
      String input = inputs.get(spelling);
      if (input != null && !input.isBlank()) {
        return input;
      }
    }
    return null;
  }

  private BigDecimal number(String name, String text) {
    if (!text.strip().matches("[-+]?(\\d{1,30}\\.?\\d{0,30}|\\.\\d{1,30})")) {
      throw refuse(name, "'%s' is not a number; write for instance 80 or 12.5".formatted(text));
    }
    return new BigDecimal(text.strip());
  }

  private Formula formula(String key, String text) {
    try {
      return Formula.parse(text);
    } catch (IllegalArgumentException e) {
      throw refuse(key, String.valueOf(e.getMessage()));
    }
  }

  private TariffException refuse(String key, String reason) {
    return new TariffException(
        "OWRS", "%s of class %s cannot be used: %s".formatted(key, rates.name(), reason));
  }

  /**
   * Tiers as upper limits and prices.
   *
   * @param limits largest usage billed in each tier but the last
   * @param prices price of a unit in each tier
   */
  record Tiers(List<BigDecimal> limits, List<BigDecimal> prices) {

    /** A start is the first unit billed in its tier: the tier below holds one unit less. */
    static Tiers of(List<BigDecimal> starts, List<BigDecimal> prices) {
      requireFit(starts, prices);
      List<BigDecimal> limits = new ArrayList<>();
      for (int i = 1; i < starts.size(); i++) {
        if (starts.get(i).compareTo(starts.get(i - 1)) <= 0) {
          throw new IllegalArgumentException(
              "tier %d starts at %s, not above tier %d at %s; put the starts in rising order"
                  .formatted(
                      i + 1, starts.get(i).toPlainString(), i, starts.get(i - 1).toPlainString()));
        }
        limits.add(starts.get(i).subtract(BigDecimal.ONE));
      }
      return new Tiers(limits, prices);
    }

    /** A start, rounded to whole units, is the largest usage of the tier below. */
    static Tiers ofBudget(List<BigDecimal> starts, List<BigDecimal> prices) {
      requireFit(starts, prices);
      List<BigDecimal> limits = new ArrayList<>();
      for (int i = 1; i < starts.size(); i++) {
        limits.add(starts.get(i).setScale(0, RoundingMode.HALF_EVEN));
      }
      return new Tiers(limits, prices);
    }

    private static void requireFit(List<BigDecimal> starts, List<BigDecimal> prices) {
      if (starts.size() != prices.size()) {
        throw new IllegalArgumentException(
            "it has %d tier starts and %d tier prices; give one price a tier"
                .formatted(starts.size(), prices.size()));
      }
      if (starts.get(0).signum() != 0 && starts.get(0).compareTo(BigDecimal.ONE) != 0) {
        throw new IllegalArgumentException(
            "its first tier starts at %s, so the units below have no price; start at 0 or 1"
                .formatted(starts.get(0).toPlainString()));
      }
    }

    /** Units billed in each tier. */
    List<BigDecimal> quantities(BigDecimal usage) {
      List<BigDecimal> quantities = new ArrayList<>();
      BigDecimal used = BigDecimal.ZERO;
      for (int i = 0; i < prices.size(); i++) {
        BigDecimal upTo = i < limits.size() ? usage.min(limits.get(i)) : usage;
        BigDecimal quantity = upTo.subtract(used).max(BigDecimal.ZERO);
        quantities.add(quantity);
        used = used.add(quantity);
      }
      return quantities;
    }

    BigDecimal amount(BigDecimal usage) {
      BigDecimal amount = BigDecimal.ZERO;
      List<BigDecimal> quantities = quantities(usage);
      for (int i = 0; i < quantities.size(); i++) {
        amount = amount.add(quantities.get(i).multiply(prices.get(i)));
      }
      return amount;
    }

    String rule(int tier) {
      if (tier < limits.size()) {
        return "up to " + limits.get(tier).toPlainString();
      }
      return limits.isEmpty() ? "" : "above " + limits.get(limits.size() - 1).toPlainString();
    }
  }
}
