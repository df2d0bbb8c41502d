package towerledger.balance;

import java.util.ArrayList;
import java.util.List;

/** Evidence for and against a cause, in words. */
final class Reasons {

  private Reasons() {}

  /**
   * What a month's makeup and samples say, whatever the cause.
   *
   * @param share makeup over the expected, as a part of it
   * @param makeup the same in words
   * @param cycles cycles over their target, less one; NaN where not known
   * @param chemistry the same in words
   */
  record Signs(double share, String makeup, double cycles, String chemistry) {

    static Signs of(MonthDraft draft) {
      double share = (draft.makeup - draft.otherUse - draft.expected) / draft.expected;
      return new Signs(
          share,
          makeup(share),
          draft.chemistry.cycles() / draft.chemistry.targetCycles() - 1,
          "cycles %.1f against a target of %.1f"
              .formatted(draft.chemistry.cycles(), draft.chemistry.targetCycles()));
    }

    /** Beyond three times as much, per cent say less to a reader than how many times. */
    private static String makeup(double share) {
      if (share > 100) {
        return "makeup where the sound system would hardly draw any";
      }
      return share > 2
          ? "makeup %.0f times what the sound system would draw".formatted(1 + share)
          : "makeup %.0f %% %s than the sound system would draw"
              .formatted(Math.abs(100 * share), share >= 0 ? "more" : "less");
    }
  }

  static CauseOpinion of(MonthDraft draft, Signs signs, Cause cause, double probability) {
    List<String> speaksFor = new ArrayList<>();
    List<String> against = new ArrayList<>();
    double share = signs.share();
    String makeup = signs.makeup();
    double cycles = signs.cycles();
    boolean low = cycles < -0.08;
    String chemistry = signs.chemistry();
    boolean knownCycles = !Double.isNaN(cycles);
    switch (cause) {
      case NONE -> {
        (Math.abs(share) < 0.05 ? speaksFor : against).add(makeup);
        if (knownCycles) {
          (low ? against : speaksFor).add(chemistry);
        }
      }
      case MAKEUP_LINE_LEAK, OTHER_USE -> {
        (share > 0 ? speaksFor : against).add(makeup);
        if (knownCycles) {
          (low ? against : speaksFor).add(chemistry + ": the water is lost before the basin");
        }
      }
      case FILL_VALVE_LEAKING_BY,
          FILL_VALVE_STUCK_OPEN,
          OVERFLOW_ON_SHUTDOWN,
          LEVEL_SET_HIGH,
          BLOWDOWN_STUCK_OPEN,
          LOW_CYCLES,
          BASIN_LEAK,
          DRIFT_EXCESS -> {
        (share > 0 ? speaksFor : against).add(makeup);
        if (knownCycles) {
          (low ? speaksFor : against).add(chemistry + ": concentrated water is lost");
        }
      }
      case MAKEUP_METER_ERROR, HEAT_LOAD_ERROR -> {
        speaksFor.add(makeup);
        if (knownCycles) {
          (low ? against : speaksFor).add(chemistry);
        }
      }
      case CONDUCTIVITY_ERROR -> {
        if (knownCycles) {
          (Math.abs(cycles) > 0.08 ? speaksFor : against).add(chemistry);
        }
      }
      case FILL_VALVE_SHUT -> (share < -0.5 ? speaksFor : against).add(makeup);
      case BLOWDOWN_METER_ERROR, MISSING_DATA -> {}
    }
    if (cause == Cause.FILL_VALVE_LEAKING_BY) {
      double over = FillPressure.overLimit(draft.pass.facts, draft.lastFact);
      if (over > 1) {
        speaksFor.add(
            "pressure at the fill valve %.0f %% above the highest at which it closes; many sound sites exceed it too"
                .formatted(100 * (over - 1)));
      } else if (over < 0.9) {
        against.add(
            "pressure at the fill valve %.0f %% below the highest at which it closes"
                .formatted(100 * (1 - over)));
      }
    }
    if (!Double.isNaN(draft.meteredBleed)
        && (cause == Cause.BLOWDOWN_STUCK_OPEN
            || cause == Cause.LOW_CYCLES
            || cause == Cause.BLOWDOWN_METER_ERROR
            || cause == Cause.BASIN_LEAK
            || cause == Cause.DRIFT_EXCESS)) {
      double needed = draft.neededBleed();
      boolean high = draft.meteredBleed > 1.15 * needed;
      boolean bleeds = cause == Cause.BLOWDOWN_STUCK_OPEN || cause == Cause.LOW_CYCLES;
      (high == bleeds ? speaksFor : against)
          .add("metered bleed %.0f L against %.0f L needed".formatted(draft.meteredBleed, needed));
    }
    return new CauseOpinion(cause, probability, speaksFor, against);
  }
}
