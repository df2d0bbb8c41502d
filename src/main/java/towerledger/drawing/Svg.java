package towerledger.drawing;

/**
 * Writes one drawing. Shapes name a {@link Tone}; the medium decides whether that becomes a class
 * or a colour. No style attributes, no scripts, no ids: the result may stand in a page under a
 * strict content policy, several times over, or in a file of its own.
 */
final class Svg {

  private final StringBuilder out = new StringBuilder(1024);
  private final Medium medium;

  private Svg(Medium medium) {
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
    Svg svg = new Svg(medium);
    svg.out
        .append("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"")
        .append(cssClass)
        .append("\" viewBox=\"0 0 ")
        .append(num(width))
        .append(' ')
        .append(num(height))
        .append("\" width=\"")
        .append(num(width))
        .append("\" height=\"")
        .append(num(height))
        .append("\" role=\"img\" aria-label=\"")
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
    Svg svg = new Svg(medium);
    svg.out
        .append("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"")
        .append(cssClass)
        .append("\" viewBox=\"0 0 ")
        .append(num(width))
        .append(' ')
        .append(num(height))
        .append("\" width=\"")
        .append(num(width))
        .append("\" height=\"")
        .append(num(height))
        .append("\" aria-hidden=\"true\">");
    return svg;
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
    out.append("<rect x=\"")
        .append(num(x))
        .append("\" y=\"")
        .append(num(y))
        .append("\" width=\"")
        .append(num(width))
        .append("\" height=\"")
        .append(num(height))
        .append('"');
    fill(tone);
    closeWith("rect", hint);
  }

  void line(double x1, double y1, double x2, double y2, Tone tone, double width) {
    out.append("<path d=\"M")
        .append(num(x1))
        .append(' ')
        .append(num(y1))
        .append('L')
        .append(num(x2))
        .append(' ')
        .append(num(y2))
        .append('"');
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
    out.append("<circle cx=\"")
        .append(num(x))
        .append("\" cy=\"")
        .append(num(y))
        .append("\" r=\"")
        .append(num(radius))
        .append('"');
    fill(tone);
    closeWith("circle", hint);
  }

  /** Text at a baseline; anchor is start, middle or end. */
  void text(double x, double y, String anchor, double size, Tone tone, String text) {
    out.append("<text x=\"")
        .append(num(x))
        .append("\" y=\"")
        .append(num(y))
        .append("\" text-anchor=\"")
        .append(anchor)
        .append("\" font-size=\"")
        .append(num(size))
        .append('"');
    fill(tone);
    out.append('>').append(escape(text)).append("</text>");
  }

  /** An unseen field that shows its hint when pointed at. */
  void hover(double x, double y, double width, double height, String hint) {
    out.append("<rect x=\"")
        .append(num(x))
        .append("\" y=\"")
        .append(num(y))
        .append("\" width=\"")
        .append(num(width))
        .append("\" height=\"")
        .append(num(height))
        .append("\" fill=\"none\" pointer-events=\"all\"");
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
    out.append(" fill=\"none\" stroke-width=\"").append(num(width)).append('"');
    if (medium == Medium.PAGE) {
      out.append(" class=\"line-").append(tone.cssName()).append('"');
    } else {
      out.append(" stroke=\"").append(tone.onLight()).append('"');
    }
  }

  /** A coordinate with at most one decimal: a tenth of a pixel is finer than any screen. */
  static String num(double value) {
    long tenths = Math.round(value * 10);
    if (tenths % 10 == 0) {
      return Long.toString(tenths / 10);
    }
    // by hand: a page of charts writes thousands of them, and a format is read anew for each
    long size = Math.abs(tenths);
    return (tenths < 0 ? "-" : "") + size / 10 + '.' + size % 10;
  }

  private static String escape(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
