package towerledger.drawing;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import towerledger.quantity.Volume;

/**
 * Water bars under one another on one scale, each with its name and figure, and what the parts
 * mean: one picture for mail and print, drawn to be read at the width of a phone.
 */
public final class BarSheet {

  /** Width at which its text has its own size. */
  public static final double WIDTH = 360;

  private static final double MARGIN = 2;
  private static final double TEXT = 12.5;
  private static final double FINE = 11.5;
  private static final double ROW = 46;
  private static final double SIGN = 17;
  private static final WaterBar.Style STYLE =
      new WaterBar.Style(Medium.PAPER, WIDTH - 2 * MARGIN, 16, 8, 1);

  private BarSheet() {}

  /** One bar with the name of its system and a figure. */
  public record Row(String name, String figure, WaterBar bar) {}

  /**
   * The drawing.
   *
   * @param names name of each part
   * @param stroke what the ink stroke means
   * @param whisker what the whisker means
   * @param title what it shows, for screen readers
   * @param description its figures in words, for screen readers
   */
  public static String draw(
      List<Row> rows,
      Map<WaterPart, String> names,
      String stroke,
      String whisker,
      String title,
      String description) {
    Set<WaterPart> shown = EnumSet.noneOf(WaterPart.class);
    double most = 0;
    double left = 0;
    for (Row row : rows) {
      most = Math.max(most, row.bar().reach().litres());
      left = Math.max(left, row.bar().negativeLitres());
      for (WaterPart part : WaterPart.values()) {
        row.bar().part(part).filter(v -> v.litres() != 0).ifPresent(v -> shown.add(part));
      }
    }
    double signs = Math.ceil(shown.size() / 2.0) + 2;
    double height = rows.size() * ROW + 6 + signs * SIGN + 4;
    Svg svg = Svg.begin(Medium.PAPER, "bar-sheet", WIDTH, height, title, description);
    double y = 0;
    for (Row row : rows) {
      svg.text(MARGIN, y + 13, "start", TEXT, Tone.INK, fitted(row.name(), row.figure()));
      svg.text(WIDTH - MARGIN, y + 13, "end", TEXT, Tone.INK, row.figure());
      row.bar()
          .drawAt(
              svg,
              MARGIN,
              y + 18,
              STYLE,
              Volume.ofLitres(most),
              Math.min(left, most * 0.15),
              Map.of());
      y += ROW;
    }
    drawSigns(svg, y + 6, List.copyOf(shown), names, stroke, whisker);
    return svg.end();
  }

  private static void drawSigns(
      Svg svg,
      double top,
      List<WaterPart> shown,
      Map<WaterPart, String> names,
      String stroke,
      String whisker) {
    double y = top;
    for (int i = 0; i < shown.size(); i++) {
      WaterPart part = shown.get(i);
      double x = i % 2 == 0 ? MARGIN : WIDTH / 2 + MARGIN;
      Hatching.field(svg, part, x + 0.5, y + 1, 19, 10, "");
      svg.text(x + 26, y + 10, "start", FINE, Tone.INK, names.getOrDefault(part, ""));
      if (i % 2 == 1 || i == shown.size() - 1) {
        y += SIGN;
      }
    }
    svg.line(MARGIN + 10, y, MARGIN + 10, y + 12, Tone.INK, 1.6);
    svg.text(MARGIN + 26, y + 10, "start", FINE, Tone.INK, stroke);
    y += SIGN;
    svg.path(
        "M%s %sh16M%s %sv6M%s %sv6"
            .formatted(
                Svg.num(MARGIN + 2),
                Svg.num(y + 6),
                Svg.num(MARGIN + 2),
                Svg.num(y + 3),
                Svg.num(MARGIN + 18),
                Svg.num(y + 3)),
        Tone.INK,
        1);
    svg.dot(MARGIN + 10, y + 6, 2.2, Tone.INK, "");
    svg.text(MARGIN + 26, y + 10, "start", FINE, Tone.INK, whisker);
  }

  /** A name cut to what the figure leaves of the line, taking half an em a letter. */
  private static String fitted(String name, String figure) {
    int room = (int) ((WIDTH - 2 * MARGIN - 12) / (TEXT * 0.52)) - figure.length();
    return name.length() <= room ? name : name.substring(0, Math.max(1, room - 1)).strip() + "…";
  }
}
