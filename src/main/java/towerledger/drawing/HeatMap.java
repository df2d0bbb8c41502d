package towerledger.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;

/**
 * Hour by day: how much water was drawn in each hour of a month, pale to deep, with hours of no
 * record left open. What runs through the night shows as a level stripe.
 */
public final class HeatMap {

  private static final Tone[] DEPTH = {
    Tone.GROUND, Tone.EVAPORATION, Tone.DRIFT, Tone.NEEDED_BLOWDOWN, Tone.OTHER_USE
  };
  private static final double LEFT = 38;
  private static final double CELL_HEIGHT = 6;

  private HeatMap() {}

  /**
   * A depth and the share of the deepest hour from which it is drawn.
   *
   * @param fromShare 0 to 1
   * @param tone its colour
   */
  public record Depth(double fromShare, Tone tone) {}

  /** The depths, palest first; what draws nothing stays as the paper is. */
  public static List<Depth> depths() {
    List<Depth> depths = new ArrayList<>();
    for (int depth = 1; depth < DEPTH.length; depth++) {
      depths.add(new Depth((depth - 1) / (DEPTH.length - 1.0), DEPTH[depth]));
    }
    return depths;
  }

  /**
   * The drawing.
   *
   * @param days one series of 24 hours a day
   * @param dayLabels label under each day; empty for none
   * @param figure an hour's value as text with unit, shown when pointed at
   */
  public static String draw(
      Medium medium,
      List<Series> days,
      List<String> dayLabels,
      DoubleFunction<String> figure,
      String title,
      String description) {
    double height = 24 * CELL_HEIGHT + 24;
    double most = days.stream().mapToDouble(Series::most).max().orElse(0);
    double cell = (Chart.WIDTH - LEFT - 6) / Math.max(1, days.size());
    Svg svg = Svg.begin(medium, "chart", Chart.WIDTH, height, title, description);
    for (int hour = 0; hour <= 24; hour += 6) {
      double y = 4 + hour * CELL_HEIGHT;
      svg.text(LEFT - 5, y + 4, "end", 11, Tone.INK_SOFT, hour + ":00");
      svg.line(LEFT - 3, y, LEFT, y, Tone.INK_SOFT, 0.8);
    }
    for (int day = 0; day < days.size(); day++) {
      double x = LEFT + day * cell;
      for (int hour = 0; hour < days.get(day).size(); hour++) {
        drawHour(svg, days.get(day), hour, x, cell, most, figure);
      }
      if (day < dayLabels.size() && !dayLabels.get(day).isEmpty()) {
        svg.text(x + cell / 2, height - 5, "middle", 11, Tone.INK_SOFT, dayLabels.get(day));
      }
    }
    return svg.end();
  }

  private static void drawHour(
      Svg svg,
      Series day,
      int hour,
      double x,
      double cell,
      double most,
      DoubleFunction<String> figure) {
    double y = 4 + hour * CELL_HEIGHT;
    if (!day.isKnown(hour)) {
      svg.line(x + cell / 2 - 1, y + 3, x + cell / 2 + 1, y + 3, Tone.RULE, 1);
      return;
    }
    double share = most > 0 ? day.value(hour) / most : 0;
    int depth = share <= 0.005 ? 0 : (int) Math.min(4, 1 + Math.floor(share * 4));
    if (depth > 0) {
      svg.area(x, y, cell - 0.6, CELL_HEIGHT - 0.6, DEPTH[depth], figure.apply(day.value(hour)));
    }
  }
}
