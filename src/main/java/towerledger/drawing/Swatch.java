package towerledger.drawing;

/** Small samples of colours and marks, for legends and tables. */
public final class Swatch {

  private static final double WIDTH = 20;
  private static final double HEIGHT = 12;

  private Swatch() {}

  /** The colour and texture of a part. */
  public static String of(WaterPart part, Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    Hatching.field(svg, part, 0.5, 0.5, WIDTH - 1, HEIGHT - 1, "");
    return svg.end();
  }

  /** A band of one colour. */
  public static String band(Tone tone, Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    svg.area(0.5, 1.5, WIDTH - 1, HEIGHT - 3, tone, "");
    return svg.end();
  }

  /** A line; dashed for a limit or target. */
  public static String line(Tone tone, boolean dashed, Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    if (dashed) {
      svg.dashes("M0 6L20 6", tone, 1.3);
    } else {
      svg.line(0, 6, WIDTH, 6, tone, 1.6);
    }
    return svg.end();
  }

  /** The upright stroke of the meter. */
  public static String stroke(Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    svg.line(10, 0, 10, HEIGHT, Tone.INK, 1.6);
    return svg.end();
  }

  /** The level stroke of the meter over a month's bar. */
  public static String level(Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    svg.line(3, 6, WIDTH - 3, 6, Tone.INK, 1.6);
    return svg.end();
  }

  /** An interval alone, upright as it stands on a bar. */
  public static String interval(Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    svg.path("M10 1L10 11M7 1L13 1M7 11L13 11", Tone.INK, 1);
    return svg.end();
  }

  /** An interval with its middle. */
  public static String whisker(Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    svg.path("M2 6L18 6M2 3L2 9M18 3L18 9", Tone.INK, 1);
    svg.dot(10, 6, 2.2, Tone.INK, "");
    return svg.end();
  }

  /** A sign on the axis of time. */
  public static String sign(Layer.Sign sign, Medium medium) {
    Svg svg = Svg.beginMark(medium, "swatch", WIDTH, HEIGHT);
    ChartLayers.drawSign(svg, sign, WIDTH / 2, HEIGHT / 2, "");
    return svg.end();
  }
}
