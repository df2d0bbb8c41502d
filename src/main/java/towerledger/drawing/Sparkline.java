package towerledger.drawing;

/**
 * Thirteen months in the width of a word: metered makeup as a line over the band expected, and the
 * months that wasted water marked below in the colour of loss.
 */
public final class Sparkline {

  private static final double WIDTH = 112;
  private static final double HEIGHT = 30;

  private Sparkline() {}

  /**
   * The drawing.
   *
   * @param makeup metered makeup
   * @param low lower bound of the expected makeup
   * @param high upper bound of the expected makeup
   * @param loss water lost; above zero the month is marked
   * @param description what can be seen in it, for screen readers
   */
  public static String draw(
      Medium medium, Series makeup, Series low, Series high, Series loss, String description) {
    double most = Math.max(makeup.most(), high.most());
    Scale scale = new Scale(0, most > 0 ? most : 1, most > 0 ? most : 1);
    Svg svg = Svg.begin(medium, "sparkline", WIDTH, HEIGHT, description, "");
    ChartLayers layers = new ChartLayers(svg, scale, 1, WIDTH - 2, 2, HEIGHT - 8, makeup.size());
    layers.draw(new Layer.Band(low, high, Tone.EVAPORATION));
    layers.draw(new Layer.Line(makeup, Tone.INK, false));
    for (int slot = 0; slot < loss.size(); slot++) {
      if (loss.isKnown(slot) && loss.value(slot) > 0) {
        double wide = layers.slotWidth() - 1;
        svg.area(layers.middle(slot) - wide / 2, HEIGHT - 4, wide, 3, Tone.LOSS, "");
      }
    }
    if (makeup.size() > 0 && makeup.isKnown(makeup.size() - 1)) {
      int last = makeup.size() - 1;
      svg.dot(layers.middle(last), layers.y(makeup.value(last)), 2, Tone.INK, "");
    }
    return svg.end();
  }
}
