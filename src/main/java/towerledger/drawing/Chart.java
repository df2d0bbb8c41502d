package towerledger.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;

/**
 * A small chart over equal slots of time (months, days): one of several that are compared. Drawn
 * 320 wide so that it is read at its own size on a phone and two or three stand abreast at a desk.
 * The unit stands in the heading above it, not on the axis.
 */
public final class Chart {

  static final double WIDTH = 320;
  private static final double LEAST_LEFT = 38;

  /** Width of a digit beside the axis; the widest tick must not be cut off in print. */
  private static final double DIGIT = 6.2;

  private static final double RIGHT = 6;
  private static final double TOP = 8;
  private static final double BOTTOM = 18;
  private static final double TEXT = 11;

  private final List<String> slotLabels;
  private final List<Layer> layers = new ArrayList<>();
  private List<String> hints = List.of();
  private double height = 150;
  private boolean fromZero = true;
  private DoubleFunction<String> tickText = Svg::num;

  private Chart(List<String> slotLabels) {
    this.slotLabels = List.copyOf(slotLabels);
  }

  /** A chart with one slot a label; an empty label leaves the slot unnamed. */
  public static Chart over(List<String> slotLabels) {
    return new Chart(slotLabels);
  }

  /** Adds a layer over those before. */
  public Chart with(Layer layer) {
    layers.add(layer);
    return this;
  }

  /** What is said when a slot is pointed at: its month with its figures. */
  public Chart hints(List<String> hints) {
    this.hints = List.copyOf(hints);
    return this;
  }

  /** Height of the drawing where 150 does not fit. */
  public Chart height(double height) {
    this.height = height;
    return this;
  }

  /** Lets the value axis begin above zero, for a level such as cycles or pressure. */
  public Chart fromLeast() {
    this.fromZero = false;
    return this;
  }

  /** How the value axis writes its ticks. */
  public Chart ticks(DoubleFunction<String> tickText) {
    this.tickText = tickText;
    return this;
  }

  /**
   * The drawing.
   *
   * @param title what it shows
   * @param description what can be seen in it, in a sentence
   */
  public String draw(Medium medium, String title, String description) {
    double[] range = range();
    Scale scale = Scale.holding(range[0], range[1], height < 110 ? 2 : 4);
    Svg svg = Svg.begin(medium, "chart", WIDTH, height, title, description);
    double left = left(scale);
    drawAxis(svg, scale, left);
    ChartLayers drawn =
        new ChartLayers(
            svg, scale, left, WIDTH - left - RIGHT, TOP, height - TOP - BOTTOM, slotLabels.size());
    layers.forEach(drawn::draw);
    if (scale.low() < 0 || fromZero) {
      double zero = drawn.y(Math.max(0, scale.low()));
      svg.line(left, zero, WIDTH - RIGHT, zero, Tone.INK_SOFT, 0.8);
    }
    drawSlots(svg, drawn);
    return svg.end();
  }

  private double[] range() {
    double least = fromZero ? 0 : Double.POSITIVE_INFINITY;
    double most = fromZero ? 0 : Double.NEGATIVE_INFINITY;
    for (Layer layer : layers) {
      double[] own = ChartLayers.range(layer);
      least = Math.min(least, own[0]);
      most = Math.max(most, own[1]);
    }
    return least <= most ? new double[] {least, most} : new double[] {0, 1};
  }

  private double left(Scale scale) {
    double left = LEAST_LEFT;
    for (int tick = 0; tick < scale.ticks(); tick++) {
      left = Math.max(left, DIGIT * tickText.apply(scale.tick(tick)).length() + 7);
    }
    return left;
  }

  private void drawAxis(Svg svg, Scale scale, double left) {
    double depth = height - TOP - BOTTOM;
    for (int tick = 0; tick < scale.ticks(); tick++) {
      double value = scale.tick(tick);
      double y = TOP + depth * (1 - scale.place(value));
      svg.line(left, y, WIDTH - RIGHT, y, Tone.RULE_FAINT, 0.8);
      svg.text(left - 5, y + 3.5, "end", TEXT, Tone.INK_SOFT, tickText.apply(value));
    }
  }

  private void drawSlots(Svg svg, ChartLayers drawn) {
    for (int slot = 0; slot < slotLabels.size(); slot++) {
      if (!slotLabels.get(slot).isEmpty()) {
        svg.text(
            drawn.middle(slot), height - 5, "middle", TEXT, Tone.INK_SOFT, slotLabels.get(slot));
      }
      if (slot < hints.size() && !hints.get(slot).isEmpty()) {
        svg.hover(
            drawn.middle(slot) - drawn.slotWidth() / 2,
            TOP,
            drawn.slotWidth(),
            height - TOP - BOTTOM,
            hints.get(slot));
      }
    }
  }
}
