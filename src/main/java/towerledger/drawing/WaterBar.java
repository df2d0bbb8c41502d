package towerledger.drawing;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import towerledger.quantity.Volume;

/**
 * Where the water of one system and month went: one bar on a scale shared by all bars beside it.
 *
 * <p>The parts that stack lie end to end from zero; negative ones lie left of it. An upright ink
 * line marks the metered makeup. The whisker below the bar shows where the bar of the same system
 * in sound state would have ended, with its 95 % interval: where it stays short of the ink line,
 * the gap is the unaccounted water.
 */
public final class WaterBar {

  private final Map<WaterPart, Volume> parts;
  private final Optional<Volume> makeup;
  private final Optional<Interval> soundMakeup;

  /**
   * A bar.
   *
   * @param parts the parts that are known; those that are not are left out
   * @param makeup metered makeup, if metered
   * @param soundMakeup makeup of the system in sound state with its 95 % interval, if it can be
   *     said: makeup less unaccounted, or the expected makeup where nothing is metered
   */
  public WaterBar(
      Map<WaterPart, Volume> parts, Optional<Volume> makeup, Optional<Interval> soundMakeup) {
    this.parts = parts.isEmpty() ? Map.of() : new EnumMap<>(parts);
    this.makeup = makeup;
    this.soundMakeup = soundMakeup;
  }

  /** Amount of one part, if known. */
  public Optional<Volume> part(WaterPart part) {
    return Optional.ofNullable(parts.get(part));
  }

  /** How far the bar reaches: the largest volume that any mark of it stands at. */
  public Volume reach() {
    double reach = positiveLitres();
    reach = Math.max(reach, makeup.map(Volume::litres).orElse(0.0));
    reach = Math.max(reach, soundMakeup.map(i -> i.high().litres()).orElse(0.0));
    return Volume.ofLitres(reach);
  }

  private double positiveLitres() {
    return parts.values().stream().mapToDouble(v -> Math.max(0, v.litres())).sum();
  }

  /** How far the bar reaches left of zero, in litres. */
  double negativeLitres() {
    return -parts.values().stream().mapToDouble(v -> Math.min(0, v.litres())).sum();
  }

  /**
   * The drawing.
   *
   * @param style size and medium
   * @param fullScale volume at the right end, the same for all bars that are compared
   * @param title what it shows, for screen readers
   * @param description its figures in a sentence, for screen readers
   * @param hints figure of each part with its name, shown when pointed at
   */
  public String draw(
      Style style,
      Volume fullScale,
      String title,
      String description,
      Map<WaterPart, String> hints) {
    double height = style.barHeight() + style.whiskerHeight() + 1;
    Svg svg = Svg.begin(style.medium(), "water-bar", style.width(), height, title, description);
    double most = Math.max(fullScale.litres(), reach().litres());
    drawAt(svg, 0, 0, style, fullScale, Math.min(negativeLitres(), most * 0.15), hints);
    return svg.end();
  }

  /**
   * Draws the bar into a larger drawing.
   *
   * @param left its left end
   * @param top its upper edge
   * @param leftLitres room left of zero
   */
  void drawAt(
      Svg svg,
      double left,
      double top,
      Style style,
      Volume fullScale,
      double leftLitres,
      Map<WaterPart, String> hints) {
    double barHeight = style.barHeight();
    double most = Math.max(fullScale.litres(), reach().litres());
    double perLitre = most + leftLitres > 0 ? (style.width() - 2) / (most + leftLitres) : 0;
    double zero = left + 1 + leftLitres * perLitre;
    double bottom = top + barHeight;
    svg.line(zero, top, zero, bottom + 1, Tone.INK_SOFT, 0.8);
    drawParts(svg, left, zero, top, perLitre, style, hints);
    makeup.ifPresent(
        metered -> {
          double x = zero + metered.litres() * perLitre;
          svg.line(x, top, x, bottom + 2, Tone.INK, 1.6);
        });
    soundMakeup.ifPresent(
        sound -> drawWhisker(svg, sound, zero, perLitre, bottom + 1, style.whiskerHeight()));
  }

  private void drawParts(
      Svg svg,
      double edge,
      double zero,
      double top,
      double perLitre,
      Style style,
      Map<WaterPart, String> hints) {
    double barHeight = style.barHeight();
    double right = zero;
    double left = zero;
    for (WaterPart part : WaterPart.values()) {
      Volume volume = parts.get(part);
      if (volume == null) {
        continue;
      }
      String hint = hints.getOrDefault(part, "");
      double length = Math.abs(volume.litres()) * perLitre;
      if (volume.litres() >= 0) {
        Hatching.field(svg, part, right, top + 1, length, barHeight - 1, hint, style.grain());
        right += length;
        if (length > 2) {
          svg.line(right, top + 1, right, top + barHeight, Tone.GROUND, 0.8);
        }
      } else {
        double shown = Math.min(length, left - edge - 1);
        left -= shown;
        Hatching.field(svg, part, left, top + 1, shown, barHeight - 1, hint, style.grain());
      }
    }
  }

  private static void drawWhisker(
      Svg svg, Interval sound, double zero, double perLitre, double top, double height) {
    double low = zero + Math.max(0, sound.low().litres()) * perLitre;
    double high = zero + sound.high().litres() * perLitre;
    double at = zero + Math.max(0, sound.value().litres()) * perLitre;
    double middle = top + height / 2;
    double half = height / 2 - 0.5;
    svg.line(low, middle, high, middle, Tone.INK, 1);
    svg.line(low, middle - half, low, middle + half, Tone.INK, 1);
    svg.line(high, middle - half, high, middle + half, Tone.INK, 1);
    svg.dot(at, middle, Math.min(2.2, half), Tone.INK, "");
  }

  /**
   * A volume with its 95 % interval.
   *
   * @param value best estimate
   * @param low lower bound
   * @param high upper bound
   */
  public record Interval(Volume value, Volume low, Volume high) {

    public Interval {
      if (low.compareTo(high) > 0) {
        throw new IllegalArgumentException(
            "interval runs from %s L down to %s L; give the lower bound first"
                .formatted(low.litres(), high.litres()));
      }
    }
  }

  /**
   * Size of the drawing.
   *
   * @param medium where it will be looked at
   * @param width in pixels, or points on paper
   * @param barHeight height of the bar itself
   * @param whiskerHeight room for the whisker below it
   * @param grain how many times as coarse as elsewhere a loss is hatched: a page shows the drawing
   *     at half its size on a phone
   */
  public record Style(
      Medium medium, double width, double barHeight, double whiskerHeight, double grain) {

    /** In a list, a bar to a line. */
    public static final Style LIST = new Style(Medium.PAGE, 320, 13, 7, 1.5);

    /** Across a page, with its table beneath. */
    public static final Style BROAD = new Style(Medium.PAGE, 720, 30, 10, 1.75);

    /** In mail and print. */
    public static final Style PAPER = new Style(Medium.PAPER, 500, 22, 9, 1);
  }
}
