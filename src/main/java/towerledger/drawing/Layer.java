package towerledger.drawing;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** What a {@link Chart} shows, one over the other. All series of a chart have the same slots. */
public sealed interface Layer {

  /** A range that is expected or uncertain. */
  record Band(Series low, Series high, Tone tone) implements Layer {}

  /** Values joined by a line, with a gap where one is unknown. */
  record Line(Series values, Tone tone, boolean dots) implements Layer {}

  /** A limit or a target that holds slot by slot, drawn dashed. */
  record Limit(Series values, Tone tone) implements Layer {}

  /** An upright bar a slot, from zero. */
  record Bars(Series values, WaterPart part) implements Layer {}

  /** Parts stacked from zero; negative ones below it. */
  record Stack(Map<WaterPart, Series> parts) implements Layer {
    public Stack {
      parts = parts.isEmpty() ? Map.of() : new EnumMap<>(parts);
    }
  }

  /** An interval a slot with its middle: what the value could be. */
  record Whiskers(Series low, Series middle, Series high) implements Layer {}

  /** A short level stroke a slot: what a meter said. */
  record Strokes(Series values) implements Layer {}

  /** A moment, with a word beside it. */
  record Moment(double slot, String label) implements Layer {}

  /** What happened on the axis of time, along the upper edge. */
  record Marks(List<Mark> marks) implements Layer {
    public Marks {
      marks = List.copyOf(marks);
    }
  }

  /**
   * One thing that happened.
   *
   * @param slot place on the axis, as a fraction of slots; the middle of the first is 0
   * @param sign what sort of thing it is
   * @param hint what is said when it is pointed at
   */
  record Mark(double slot, Sign sign, String hint) {}

  /** Sorts of things that happen, each with a shape of its own. */
  enum Sign {
    /** Somebody was there: a small ring. */
    VISIT,
    /** Something was repaired or set: a square with a line down. */
    REPAIR,
    /** A fault began, as the ledger sees it: a wedge with a line down. */
    ONSET
  }
}
