package towerledger.drawing;

import java.util.Map;

/** Draws the layers of one chart into its field. */
final class ChartLayers {

  private final Svg svg;
  private final Scale scale;
  private final double left;
  private final double width;
  private final double top;
  private final double depth;
  private final int slots;

  ChartLayers(
      Svg svg, Scale scale, double left, double width, double top, double depth, int slots) {
    this.svg = svg;
    this.scale = scale;
    this.left = left;
    this.width = width;
    this.top = top;
    this.depth = depth;
    this.slots = Math.max(1, slots);
  }

  double slotWidth() {
    return width / slots;
  }

  double middle(double slot) {
    return left + slotWidth() * (slot + 0.5);
  }

  double y(double value) {
    return top + depth * (1 - scale.place(value));
  }

  /** Least and most value of a layer. */
  static double[] range(Layer layer) {
    if (layer instanceof Layer.Band band) {
      return new double[] {band.low().least(), band.high().most()};
    } else if (layer instanceof Layer.Line line) {
      return of(line.values());
    } else if (layer instanceof Layer.Limit limit) {
      return of(limit.values());
    } else if (layer instanceof Layer.Bars bars) {
      return of(bars.values());
    } else if (layer instanceof Layer.Strokes strokes) {
      return of(strokes.values());
    } else if (layer instanceof Layer.Whiskers whiskers) {
      return new double[] {whiskers.low().least(), whiskers.high().most()};
    } else if (layer instanceof Layer.Stack stack) {
      return ofStack(stack.parts());
    }
    return new double[] {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
  }

  private static double[] of(Series values) {
    return new double[] {values.least(), values.most()};
  }

  private static double[] ofStack(Map<WaterPart, Series> parts) {
    double least = 0;
    double most = 0;
    int size = parts.values().stream().mapToInt(Series::size).max().orElse(0);
    for (int slot = 0; slot < size; slot++) {
      double above = 0;
      double below = 0;
      for (Series series : parts.values()) {
        if (series.isKnown(slot)) {
          above += Math.max(0, series.value(slot));
          below += Math.min(0, series.value(slot));
        }
      }
      least = Math.min(least, below);
      most = Math.max(most, above);
    }
    return new double[] {least, most};
  }

  void draw(Layer layer) {
    if (layer instanceof Layer.Band band) {
      drawBand(band);
    } else if (layer instanceof Layer.Line line) {
      drawLine(line);
    } else if (layer instanceof Layer.Limit limit) {
      svg.dashes(steps(limit.values()), limit.tone(), 1.3);
    } else if (layer instanceof Layer.Bars bars) {
      drawBars(bars);
    } else if (layer instanceof Layer.Stack stack) {
      drawStack(stack.parts());
    } else if (layer instanceof Layer.Whiskers whiskers) {
      drawWhiskers(whiskers);
    } else if (layer instanceof Layer.Strokes strokes) {
      drawStrokes(strokes.values());
    } else if (layer instanceof Layer.Moment moment) {
      drawMoment(moment);
    } else if (layer instanceof Layer.Marks marks) {
      svg.group("signs", () -> marks.marks().forEach(this::drawMark));
    }
  }

  private void drawMark(Layer.Mark mark) {
    double x = middle(mark.slot());
    if (mark.sign() != Layer.Sign.VISIT) {
      svg.line(x, top, x, top + depth, Tone.RULE, 0.8);
    }
    drawSign(svg, mark.sign(), x, top - 4, mark.hint());
  }

  /** A sign around a point. */
  static void drawSign(Svg svg, Layer.Sign sign, double x, double y, String hint) {
    switch (sign) {
      case VISIT -> svg.dot(x, y, 1.6, Tone.INK_SOFT, hint);
      case REPAIR -> svg.area(x - 2.6, y - 2.6, 5.2, 5.2, Tone.INK, hint);
      case ONSET -> {
        svg.shape(
            "M%s %sL%s %sL%s %sZ"
                .formatted(
                    Svg.num(x - 3.6),
                    Svg.num(y - 3),
                    Svg.num(x + 3.6),
                    Svg.num(y - 3),
                    Svg.num(x),
                    Svg.num(y + 3.4)),
            Tone.LOSS);
        svg.hover(x - 4, y - 4, 8, 8, hint);
      }
    }
  }

  private void drawBand(Layer.Band band) {
    int start = 0;
    while (start < slots) {
      while (start < slots && !known(band, start)) {
        start++;
      }
      int end = start;
      StringBuilder upper = new StringBuilder();
      StringBuilder lower = new StringBuilder();
      while (end < slots && known(band, end)) {
        double from = end == start ? middle(end) - slotWidth() / 2 : middle(end);
        upper.append(upper.isEmpty() ? 'M' : 'L').append(point(from, band.high().value(end)));
        lower.insert(0, "L" + point(from, band.low().value(end)));
        end++;
      }
      if (end > start) {
        double edge = middle(end - 1) + slotWidth() / 2;
        upper.append('L').append(point(edge, band.high().value(end - 1)));
        lower.insert(0, "L" + point(edge, band.low().value(end - 1)));
        svg.shape(upper.toString() + lower + "z", band.tone());
      }
      start = end + 1;
    }
  }

  private static boolean known(Layer.Band band, int slot) {
    return band.low().isKnown(slot) && band.high().isKnown(slot);
  }

  private void drawLine(Layer.Line line) {
    StringBuilder path = new StringBuilder();
    boolean joined = false;
    for (int slot = 0; slot < line.values().size(); slot++) {
      if (line.values().isKnown(slot)) {
        append(path.append(joined ? 'L' : 'M'), middle(slot), line.values().value(slot));
        joined = true;
      } else {
        joined = false;
      }
    }
    svg.path(path.toString(), line.tone(), 1.6);
    if (line.dots()) {
      for (int slot = 0; slot < line.values().size(); slot++) {
        if (line.values().isKnown(slot)) {
          svg.dot(middle(slot), y(line.values().value(slot)), 2.4, line.tone(), "");
        }
      }
    }
  }

  private String steps(Series values) {
    StringBuilder path = new StringBuilder();
    boolean joined = false;
    for (int slot = 0; slot < values.size(); slot++) {
      if (values.isKnown(slot)) {
        double half = slotWidth() / 2;
        append(path.append(joined ? 'L' : 'M'), middle(slot) - half, values.value(slot));
        append(path.append('L'), middle(slot) + half, values.value(slot));
        joined = true;
      } else {
        joined = false;
      }
    }
    return path.toString();
  }

  private double barWidth() {
    return Math.min(22, slotWidth() * 0.68);
  }

  private void drawBars(Layer.Bars bars) {
    double wide = barWidth();
    for (int slot = 0; slot < bars.values().size(); slot++) {
      if (bars.values().isKnown(slot)) {
        double upper = y(Math.max(0, bars.values().value(slot)));
        double lower = y(Math.min(0, bars.values().value(slot)));
        Hatching.field(svg, bars.part(), middle(slot) - wide / 2, upper, wide, lower - upper, "");
      }
    }
  }

  private void drawStack(Map<WaterPart, Series> parts) {
    double wide = barWidth();
    for (int slot = 0; slot < slots; slot++) {
      double above = 0;
      double below = 0;
      for (Map.Entry<WaterPart, Series> part : parts.entrySet()) {
        if (!part.getValue().isKnown(slot)) {
          continue;
        }
        double value = part.getValue().value(slot);
        double from = value >= 0 ? above : below;
        double to = from + value;
        double upper = y(Math.max(from, to));
        double lower = y(Math.min(from, to));
        Hatching.field(svg, part.getKey(), middle(slot) - wide / 2, upper, wide, lower - upper, "");
        if (value >= 0) {
          above = to;
        } else {
          below = to;
        }
      }
    }
  }

  private void drawWhiskers(Layer.Whiskers whiskers) {
    StringBuilder path = new StringBuilder();
    for (int slot = 0; slot < slots; slot++) {
      if (whiskers.low().isKnown(slot) && whiskers.high().isKnown(slot)) {
        double x = middle(slot);
        String low = Svg.num(y(whiskers.low().value(slot)));
        String high = Svg.num(y(whiskers.high().value(slot)));
        String foot = 'M' + Svg.num(x - 3) + ' ';
        String across = "H" + Svg.num(x + 3);
        path.append('M').append(Svg.num(x)).append(' ').append(low).append('V').append(high);
        path.append(foot).append(low).append(across).append(foot).append(high).append(across);
      }
    }
    svg.path(path.toString(), Tone.INK, 1);
    for (int slot = 0; slot < slots; slot++) {
      if (whiskers.low().isKnown(slot)
          && whiskers.high().isKnown(slot)
          && whiskers.middle().isKnown(slot)) {
        svg.dot(middle(slot), y(whiskers.middle().value(slot)), 1.8, Tone.INK, "");
      }
    }
  }

  private void drawStrokes(Series values) {
    double half = slotWidth() * 0.42;
    StringBuilder path = new StringBuilder();
    for (int slot = 0; slot < values.size(); slot++) {
      if (values.isKnown(slot)) {
        path.append('M')
            .append(Svg.num(middle(slot) - half))
            .append(' ')
            .append(Svg.num(y(values.value(slot))))
            .append('H')
            .append(Svg.num(middle(slot) + half));
      }
    }
    svg.path(path.toString(), Tone.INK, 1.6);
  }

  private void drawMoment(Layer.Moment moment) {
    double x = middle(moment.slot());
    svg.line(x, top, x, top + depth, Tone.INK_SOFT, 0.8);
    boolean late = moment.slot() > slots * 0.6;
    svg.text(late ? x - 4 : x + 4, top + 9, late ? "end" : "start", 11, Tone.INK, moment.label());
  }

  private void append(StringBuilder path, double x, double value) {
    Svg.number(path, x);
    Svg.number(path.append(' '), y(value));
  }

  private String point(double x, double value) {
    return Svg.num(x) + " " + Svg.num(y(value));
  }
}
