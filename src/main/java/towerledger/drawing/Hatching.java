package towerledger.drawing;

/**
 * The texture of a part, drawn as lines cut to its field, so that it needs no pattern by name and
 * prints alike everywhere.
 */
final class Hatching {

  private static final double STEP = 4;

  private Hatching() {}

  /** Fills a field with the part's colour and texture. */
  static void field(Svg svg, WaterPart part, double x, double y, double w, double h, String hint) {
    field(svg, part, x, y, w, h, hint, 1);
  }

  /**
   * The same in a drawing that may be shown smaller than it is drawn.
   *
   * @param grain how many times as coarse the lines of a loss are, so that they stay lines there
   */
  static void field(
      Svg svg, WaterPart part, double x, double y, double w, double h, String hint, double grain) {
    if (w <= 0 || h <= 0) {
      return;
    }
    svg.area(x, y, w, h, part.tone(), hint);
    switch (part.texture()) {
      case PLAIN -> {}
      case RISING -> svg.path(slanted(x, y, w, h, true, grain), Tone.LOSS, 1.4 * grain);
      case FALLING -> svg.path(slanted(x, y, w, h, false, grain), Tone.LOSS_PALE, grain);
      case UPRIGHT -> svg.path(upright(x, y, w, h), Tone.INK_SOFT, 0.7);
      case LEVEL -> svg.path(level(x, y, w, h), Tone.INK_SOFT, 0.7);
      case DOTTED -> {
        svg.path(dotted(x, y, w, h), Tone.INK_SOFT, 1);
        svg.path(outline(x, y, w, h), Tone.INK_SOFT, 0.7);
      }
    }
  }

  /** Lines at 45°, rising or falling to the right, cut to the field. */
  private static String slanted(
      double x, double y, double w, double h, boolean rising, double grain) {
    StringBuilder path = new StringBuilder();
    double step = STEP * grain;
    double first = Math.ceil((x - h) / step) * step;
    for (double at = first; at < x + w; at += step) {
      // the line runs from (at, bottom) to (at + h, top), or mirrored
      double from = Math.max(at, x);
      double to = Math.min(at + h, x + w);
      if (to - from < 0.3) {
        continue;
      }
      double yFrom = rising ? y + h - (from - at) : y + (from - at);
      double yTo = rising ? y + h - (to - at) : y + (to - at);
      append(path, from, yFrom, to, yTo);
    }
    return path.toString();
  }

  private static String upright(double x, double y, double w, double h) {
    StringBuilder path = new StringBuilder();
    for (double at = Math.ceil(x / STEP) * STEP; at < x + w; at += STEP) {
      append(path, at, y, at, y + h);
    }
    return path.toString();
  }

  private static String level(double x, double y, double w, double h) {
    StringBuilder path = new StringBuilder();
    for (double at = y + STEP / 2; at < y + h; at += STEP) {
      append(path, x, at, x + w, at);
    }
    return path.toString();
  }

  private static String dotted(double x, double y, double w, double h) {
    StringBuilder path = new StringBuilder();
    for (double row = y + STEP / 2; row < y + h; row += STEP) {
      for (double at = Math.ceil(x / STEP) * STEP; at < x + w - 1; at += STEP) {
        append(path, at, row, at + 1, row);
      }
    }
    return path.toString();
  }

  private static String outline(double x, double y, double w, double h) {
    return new StringBuilder(40)
        .append('M')
        .append(Svg.num(x))
        .append(' ')
        .append(Svg.num(y))
        .append('h')
        .append(Svg.num(w))
        .append('v')
        .append(Svg.num(h))
        .append('h')
        .append(Svg.num(-w))
        .append('z')
        .toString();
  }

  private static void append(StringBuilder path, double x1, double y1, double x2, double y2) {
    Svg.number(path.append('M'), x1);
    Svg.number(path.append(' '), y1);
    Svg.number(path.append('L'), x2);
    Svg.number(path.append(' '), y2);
  }
}
