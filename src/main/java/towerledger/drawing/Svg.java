package towerledger.drawing;

/**
 * Writes one drawing. Shapes name a {@link Tone}; the medium decides whether that becomes a class
 * or a colour. No style attributes, no scripts, no ids: the result may stand in a page under a
 * strict content policy, several times over, or in a file of its own.
 */
final class Svg {

  private static final int MARK = 256;

  private final StringBuilder out;
  private final Medium medium;

  private Svg(Medium medium, int size) {
    this.out = new StringBuilder(size);
    this.medium = medium;
  }

  /**
   * Begins a drawing.
   *
   * @param cssClass class of the root element
   * @param title what it shows, read aloud by screen readers
   * @param description what can be seen in it, in a sentence; empty if the title says all
   */
  static Svg begin(
      Medium medium,
      String cssClass,
      double width,
      double height,
      String title,
      String description) {
    Svg svg = new Svg(medium, MARK + (int) (width * height / 4)); // much is drawn on much room
    svg.out
        .append("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"")
        .append(cssClass)
        .append('"');
    svg.size(width, height);
    svg.out
        .append(" role=\"img\" aria-label=\"")
        .append(escape(description.isEmpty() ? title : title + ". " + description))
        .append("\"");
    if (medium == Medium.PAPER) {
      svg.out.append(" font-family=\"'Source Serif 4', Georgia, serif\"");
    }
    svg.out.append('>');
    svg.element("title", title);
    return svg;
  }

  /** Begins a small mark that says nothing by itself; words stand beside it. */
  static Svg beginMark(Medium medium, String cssClass, double width, double height) {
    Svg svg = new Svg(medium, MARK);
    svg.out
        .append("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"")
        .append(cssClass)
        .append('"');
    svg.size(width, height);
    svg.out.append(" aria-hidden=\"true\">");
    return svg;
  }

  private void size(double width, double height) {
    number(out.append(" viewBox=\"0 0 "), width);
    number(out.append(' '), height);
    out.append('"');
    attribute("width", width);
    attribute("height", height);
  }

  private void element(String name, String text) {
    out.append('<')
        .append(name)
        .append('>')
        .append(escape(text))
        .append("</")
        .append(name)
        .append('>');
  }

  void area(double x, double y, double width, double height, Tone tone, String hint) {
    if (width <= 0 || height <= 0) {
      return;
    }
    rectangle(x, y, width, height);
    fill(tone);
    closeWith("rect", hint);
  }

  void line(double x1, double y1, double x2, double y2, Tone tone, double width) {
    out.append("<path d=\"M");
    number(out, x1);
    number(out.append(' '), y1);
    number(out.append('L'), x2);
    number(out.append(' '), y2);
    out.append('"');
    stroke(tone, width);
    out.append("/>");
  }

  void dashes(String path, Tone tone, double width) {
    out.append("<path d=\"").append(path).append("\" stroke-dasharray=\"3 2\"");
    stroke(tone, width);
    out.append("/>");
  }

  void path(String path, Tone tone, double width) {
    if (path.isEmpty()) {
      return;
    }
    out.append("<path d=\"").append(path).append('"');
    stroke(tone, width);
    out.append("/>");
  }

  void shape(String path, Tone tone) {
    if (path.isEmpty()) {
      return;
    }
    out.append("<path d=\"").append(path).append('"');
    fill(tone);
    out.append("/>");
  }

  void dot(double x, double y, double radius, Tone tone, String hint) {
    out.append("<circle");
    attribute("cx", x);
    attribute("cy", y);
    attribute("r", radius);
    fill(tone);
    closeWith("circle", hint);
  }

  /** Text at a baseline; anchor is start, middle or end. */
  void text(double x, double y, String anchor, double size, Tone tone, String text) {
    out.append("<text");
    attribute("x", x);
    attribute("y", y);
    out.append(" text-anchor=\"").append(anchor).append('"');
    attribute("font-size", size);
    fill(tone);
    out.append('>').append(escape(text)).append("</text>");
  }

  /** An unseen field that shows its hint when pointed at. */
  void hover(double x, double y, double width, double height, String hint) {
    rectangle(x, y, width, height);
    out.append(" fill=\"none\" pointer-events=\"all\"");
    closeWith("rect", hint);
  }

  /** Shapes that belong together, under a name that scripts find; nothing where there are none. */
  void group(String name, Runnable shapes) {
    int begin = out.length();
    out.append("<g class=\"").append(name).append("\">");
    int inside = out.length();
    shapes.run();
    if (out.length() == inside) {
      out.setLength(begin);
    } else {
      out.append("</g>");
    }
  }

  String end() {
    return out.append("</svg>").toString();
  }

  private void closeWith(String name, String hint) {
    if (hint.isEmpty() || medium == Medium.PAPER) {
      out.append("/>");
    } else {
      out.append('>');
      element("title", hint);
      out.append("</").append(name).append('>');
    }
  }

  private void fill(Tone tone) {
    if (medium == Medium.PAGE) {
      out.append(" class=\"fill-").append(tone.cssName()).append('"');
    } else {
      out.append(" fill=\"").append(tone.onLight()).append('"');
    }
  }

  private void stroke(Tone tone, double width) {
    out.append(" fill=\"none\"");
    attribute("stroke-width", width);
    if (medium == Medium.PAGE) {
      out.append(" class=\"line-").append(tone.cssName()).append('"');
    } else {
      out.append(" stroke=\"").append(tone.onLight()).append('"');
    }
  }

  private void rectangle(double x, double y, double width, double height) {
    out.append("<rect");
    attribute("x", x);
    attribute("y", y);
    attribute("width", width);
    attribute("height", height);
  }

  private void attribute(String name, double value) {
    number(out.append(' ').append(name).append("=\""), value);
    out.append('"');
  }

  /** A coordinate with at most one decimal: a tenth of a pixel is finer than any screen. */
  static String num(double value) {
    StringBuilder text = new StringBuilder(8);
    number(text, value);
    return text.toString();
  }

  /** The same, added to a text: a page of charts writes thousands of them. */
  static void number(StringBuilder text, double value) {
    long tenths = Math.round(value * 10);
    if (tenths < 0) {
      text.append('-');
    }
    long size = Math.abs(tenths);
    text.append(size / 10);
    if (size % 10 != 0) {
      text.append('.').append((char) ('0' + size % 10));
    }
  }

  private static String escape(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
