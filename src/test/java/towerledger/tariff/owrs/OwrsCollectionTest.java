package towerledger.tariff.owrs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import towerledger.tariff.Bill;
import towerledger.tariff.TariffException;

/**
 * Reads a folder of published rate documents and bills every commercial class of them at several
 * usages, with every value that the document chooses by. The documents are not ours to hand on: the
 * folder is named by the system property {@code towerledger.owrs}; without it this is skipped. The
 * project's own documents in this form are billed by {@link OwrsConformanceTest} in every run.
 */
@EnabledIfSystemProperty(
    named = "towerledger.owrs",
    matches = ".+",
    disabledReason = "the published documents are not ours to hand on; name their folder")
class OwrsCollectionTest {

  private static final Currency USD = Currency.getInstance("USD");

  /** Names of commercial classes in the public collection, separators and case aside. */
  private static final Set<String> COMMERCIAL =
      Set.of("commercial", "nonresidential", "industrial", "institutional");

  private static final List<String> USAGES = List.of("0", "1", "29.5", "400", "12000");

  /** What a site would say when a document counts with it. */
  private static final Map<String, String> NUMBERS =
      Map.of(
          "budget", "80",
          "hhsize", "4",
          "days_in_period", "30.4",
          "et_amount", "5",
          "irr_area", "4000",
          "irrigable_area", "4000");

  @Test
  void billsNearlyEveryCommercialClassOfThePublicCollection() throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.walk(Path.of(System.getProperty("towerledger.owrs")))) {
      files = all.filter(file -> file.toString().endsWith(".owrs")).sorted().toList();
    }
    assertThat(files).as("rate documents in the folder").isNotEmpty();
    List<String> malformed = new ArrayList<>();
    List<String> failed = new ArrayList<>();
    int classes = 0;
    int bills = 0;
    int wellFormed = 0;
    for (Path file : files) {
      OwrsDocument document;
      try {
        document = OwrsDocument.read(Files.readString(file, StandardCharsets.UTF_8));
      } catch (TariffException e) {
        malformed.add(file.getFileName() + ": " + e.getMessage());
        continue;
      }
      wellFormed++;
      String wrong = "";
      for (String name : document.classNames()) {
        if (COMMERCIAL.contains(name.toLowerCase(java.util.Locale.ROOT).replaceAll("[^a-z]", ""))) {
          classes++;
          try {
            bills += bill(document.getCustomerClass(name));
          } catch (TariffException e) {
            wrong = name + ": " + e.getMessage();
          }
        }
      }
      if (!wrong.isEmpty()) {
        failed.add(file.getFileName() + ": " + wrong);
      }
    }
    System.out.printf(
        "MEASURED %d documents, %d well-formed, %d commercial classes, %d bills; not readable as YAML or without rates: %s; not billed: %s%n",
        files.size(), wellFormed, classes, bills, malformed, failed);
    assertThat(failed)
        .as("of %d well-formed documents", wellFormed)
        .hasSizeLessThanOrEqualTo(wellFormed / 20);
  }

  private static int bill(OwrsClass rates) {
    assertThat(rates.problems()).isEmpty();
    int bills = 0;
    for (Map<String, String> inputs : combinations(rates)) {
      BigDecimal before = BigDecimal.ZERO;
      for (String usage : USAGES) {
        Bill bill = rates.bill(inputs, new BigDecimal(usage), USD);
        assertThat(bill.total().amount())
            .as("%s with %s at %s", rates.name(), inputs, usage)
            .isGreaterThanOrEqualTo(before);
        before = bill.total().amount();
        bills++;
      }
    }
    return bills;
  }

  /** One set of inputs for every key of every choice; numbers as a site would give them. */
  private static List<Map<String, String>> combinations(OwrsClass rates) {
    Map<String, String> first = new LinkedHashMap<>();
    List<Map<String, String>> chosen = new ArrayList<>();
    for (Part part : rates.parts().values()) {
      if (part instanceof Part.Entries entries
          && entries.entries().get("values") instanceof Part.Entries) {
        Choice choice = Choice.of(entries);
        for (String key : choice.values().keySet()) {
          chosen.add(split(choice.dependsOn(), key));
        }
        chosen.get(chosen.size() - choice.values().size()).forEach(first::putIfAbsent);
      }
    }
    rates
        .inputs()
        .keySet()
        .forEach(name -> first.putIfAbsent(name, NUMBERS.getOrDefault(name, "1")));
    Set<Map<String, String>> all = new LinkedHashSet<>(List.of(first));
    for (Map<String, String> choice : chosen) {
      Map<String, String> inputs = new LinkedHashMap<>(first);
      inputs.putAll(choice);
      if (fits(rates, inputs)) {
        all.add(inputs);
      }
    }
    return List.copyOf(all);
  }

  /** A size that stands in one table need not stand in another. */
  private static boolean fits(OwrsClass rates, Map<String, String> inputs) {
    for (Part part : rates.parts().values()) {
      if (part instanceof Part.Entries entries
          && entries.entries().get("values") instanceof Part.Entries) {
        Choice choice = Choice.of(entries);
        String key =
            String.join(
                "|", choice.dependsOn().stream().map(n -> inputs.getOrDefault(n, "")).toList());
        if (choice.values().keySet().stream()
            .noneMatch(k -> ChoiceKey.canonical(k).equals(ChoiceKey.canonical(key)))) {
          return false;
        }
      }
    }
    return true;
  }

  private static Map<String, String> split(List<String> names, String key) {
    String[] values = key.replaceAll("(\\d+)\\|(\\d+/\\d+)", "$1 $2").split("\\|");
    assertThat(values).as(key).hasSameSizeAs(names.toArray());
    Map<String, String> inputs = new LinkedHashMap<>();
    for (int i = 0; i < names.size(); i++) {
      inputs.put(names.get(i), values[i]);
    }
    return inputs;
  }
}
