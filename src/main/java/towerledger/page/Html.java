package towerledger.page;

import org.springframework.web.util.HtmlUtils;

/**
 * Writes the rows of long tables. A template asks several expressions for each of a thousand cells,
 * which takes as long as all the rest of a page; everything else of a page is in its template.
 */
public final class Html {

  private final StringBuilder out;

  /** Begins; the size is a guess. */
  public Html(int size) {
    this.out = new StringBuilder(size);
  }

  /** Adds markup as it is. */
  public Html markup(String markup) {
    out.append(markup);
    return this;
  }

  /** Adds a text, which stays a text whatever people typed. */
  public Html text(String text) {
    out.append(escaped(text));
    return this;
  }

  /** What was written. */
  @Override
  public String toString() {
    return out.toString();
  }

  /** A text as it stands in markup, also between quotation marks. */
  static String escaped(String text) {
    return HtmlUtils.htmlEscape(text, "UTF-8");
  }
}
