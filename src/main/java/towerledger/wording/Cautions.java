package towerledger.wording;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import towerledger.balance.Cause;

/**
 * What must be said wherever work on a tower is advised. The usual cautions of the trade, common
 * practice and no source; local codes and licensed people decide.
 */
public final class Cautions {

  private Cautions() {}

  /** Cautions for work on any of the causes, each a sentence; empty when there is nothing to do. */
  public static List<String> of(List<Cause> causes, Words words) {
    Set<String> keys = new LinkedHashSet<>();
    for (Cause cause : causes) {
      if (cause == Cause.NONE || cause == Cause.MISSING_DATA) {
        continue;
      }
      keys.addAll(List.of("lockout", "fall", "legionella"));
      switch (cause) {
        case FILL_VALVE_LEAKING_BY, FILL_VALVE_STUCK_OPEN, FILL_VALVE_SHUT ->
            keys.addAll(List.of("confined", "backflow", "freeze"));
        case MAKEUP_LINE_LEAK -> keys.addAll(List.of("confined", "dig", "backflow", "freeze"));
        case MAKEUP_METER_ERROR -> keys.addAll(List.of("confined", "backflow"));
        // A hose on the line joins drinking water to whatever its end lies in.
        case OTHER_USE -> keys.add("backflow");
        case BLOWDOWN_STUCK_OPEN, LOW_CYCLES, CONDUCTIVITY_ERROR, BLOWDOWN_METER_ERROR ->
            keys.addAll(List.of("treatment", "discharge"));
        case OVERFLOW_ON_SHUTDOWN, LEVEL_SET_HIGH, BASIN_LEAK ->
            keys.addAll(List.of("confined", "freeze", "discharge"));
        case DRIFT_EXCESS -> keys.add("confined");
        default -> {}
      }
    }
    List<String> sentences = new ArrayList<>();
    if (!keys.isEmpty()) {
      keys.add("licensed");
      keys.forEach(key -> sentences.add(words.of("caution." + key)));
    }
    return sentences;
  }
}
