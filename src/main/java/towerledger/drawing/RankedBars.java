package towerledger.drawing;

import java.util.List;

/** Level bars in order of size, each with its name and figure: losses by customer, for instance. */
public final class RankedBars {

  private static final double ROW = 30;

  private RankedBars() {}

  /**
   * One bar.
   *
   * @param name whose it is
   * @param value length
   * @param low lower bound of its interval; equal to the value when there is none
   * @param high upper bound of its interval
   * @param figure the value as text with its unit
   */
  public record Bar(String name, double value, double low, double high, String figure) {}

  /** The drawing; {@code part} gives colour and texture. */
  public static String draw(
      Medium medium, List<Bar> bars, WaterPart part, String title, String description) {
    double height = Math.max(1, bars.size()) * ROW + 2;
    double width = Chart.WIDTH;
    double most = bars.stream().mapToDouble(b -> Math.max(b.value(), b.high())).max().orElse(1);
    double perUnit = most > 0 ? (width - 12) / most : 0;
    Svg svg = Svg.begin(medium, "chart", width, height, title, description);
    for (int row = 0; row < bars.size(); row++) {
      Bar bar = bars.get(row);
      double top = row * ROW;
      svg.text(1, top + 12, "start", 12, Tone.INK, bar.name());
      svg.text(width - 1, top + 12, "end", 12, Tone.INK, bar.figure());
      Hatching.field(svg, part, 1, top + 16, Math.max(0, bar.value()) * perUnit, 8, "");
      svg.line(1, top + 15, 1, top + 25, Tone.INK_SOFT, 0.8);
      if (bar.high() > bar.low()) {
        double low = 1 + Math.max(0, bar.low()) * perUnit;
        double high = 1 + Math.max(0, bar.high()) * perUnit;
        svg.line(low, top + 20, high, top + 20, Tone.INK, 1);
        svg.line(low, top + 17, low, top + 23, Tone.INK, 1);
        svg.line(high, top + 17, high, top + 23, Tone.INK, 1);
      }
    }
    return svg.end();
  }
}
