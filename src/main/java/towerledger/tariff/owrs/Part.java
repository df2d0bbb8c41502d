package towerledger.tariff.owrs;

import java.math.BigDecimal;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A piece of a rate document as it stands there, before any meaning is given to it. */
sealed interface Part {

  /** A number. */
  record Amount(BigDecimal value) implements Part {}

  /** A formula, a name, or a keyword. */
  record Text(String text) implements Part {}

  /** A list, for instance of tiers. */
  record Items(List<Part> items) implements Part {

    public Items {
      items = List.copyOf(items);
    }
  }

  /** A map in the order of the document. */
  record Entries(Map<String, Part> entries) implements Part {

    public Entries {
      entries = Collections.unmodifiableMap(new LinkedHashMap<>(entries));
    }
  }

  /** Nothing after the colon. */
  record Empty() implements Part {}

  /** Something that cannot be used, with the reason. */
  record Unreadable(String reason) implements Part {}
}
