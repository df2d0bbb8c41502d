package towerledger.page;

import java.util.List;
import java.util.stream.IntStream;

/**
 * A table of figures as they are read. It writes itself as HTML: a template asks several
 * expressions for each of the thousand cells of a page, which takes as long as all the rest of it.
 *
 * @param headings one a column, with the unit where the column has one
 * @param rows cells in the order of the headings; the first names the row
 */
public record FigureTable(List<String> headings, List<List<String>> rows) {

  private static final String UNKNOWN = "–";

  public FigureTable {
    headings = List.copyOf(headings);
    rows = rows.stream().map(List::copyOf).toList();
    for (List<String> row : rows) {
      if (row.size() != headings.size()) {
        throw new IllegalArgumentException(
            "row '%s' has %d cells under %d headings"
                .formatted(row.isEmpty() ? "" : row.get(0), row.size(), headings.size()));
      }
    }
  }

  /** The same without columns of figures of which no row knows one. */
  public FigureTable withoutUnknown() {
    List<Integer> told =
        IntStream.range(0, headings.size())
            .filter(
                column ->
                    column == 0 || rows.stream().anyMatch(row -> !row.get(column).equals(UNKNOWN)))
            .boxed()
            .toList();
    return new FigureTable(
        told.stream().map(headings::get).toList(),
        rows.stream().map(row -> told.stream().map(row::get).toList()).toList());
  }

  /**
   * As figures, read from the right. A table wider than a phone folds there: each row becomes a
   * short entry.
   *
   * @param caption what the table holds, for those who do not see it
   */
  public String figures(String caption) {
    return html(caption, headings.size() > 4, 1);
  }

  /** As figures whose rows have long names; it folds a column sooner. */
  public String entries(String caption) {
    return html(caption, headings.size() > 3, 1);
  }

  /** As words and figures, read from the left; it folds like the other. */
  public String words(String caption) {
    return html(caption, headings.size() > 3, headings.size());
  }

  /** As rows named by two columns of words, with figures behind; it folds like the others. */
  public String named(String caption) {
    return html(caption, headings.size() > 3, 2);
  }

  /** As the lines of a bill: words, but for the amount in the last column. */
  public String bill(String caption) {
    return html(caption, false, headings.size() - 1);
  }

  /** As figures on paper, wide and never folding. */
  public String sheet(String caption) {
    return sheet(caption, List.of());
  }

  /**
   * The same with a foot.
   *
   * @param total cells of the foot in the order of the headings; empty for none
   */
  public String sheet(String caption, List<String> total) {
    Html html = new Html(256 + rows.size() * headings.size() * 48);
    html.markup("<table class=\"sheet\"><caption class=\"unseen\">")
        .text(caption)
        .markup("</caption><thead>");
    line(html, headings, "col");
    html.markup("</thead><tbody>");
    rows.forEach(row -> line(html, row, "row"));
    html.markup("</tbody>");
    if (!total.isEmpty()) {
      html.markup("<tfoot>");
      line(html, total, "row");
      html.markup("</tfoot>");
    }
    return html.markup("</table>").toString();
  }

  private static void line(Html html, List<String> cells, String scope) {
    html.markup("\n<tr><th scope=\"")
        .markup(scope)
        .markup("\">")
        .text(cells.get(0))
        .markup("</th>");
    boolean heads = scope.equals("col");
    for (String cell : cells.subList(1, cells.size())) {
      html.markup(heads ? "<th scope=\"col\" class=\"number\">" : "<td class=\"number\">")
          .text(cell)
          .markup(heads ? "</th>" : "</td>");
    }
    html.markup("</tr>");
  }

  /**
   * Where a table folds, its cells stand below each other: then roles say what it is to those who
   * hear it, and each cell carries its heading.
   */
  private String html(String caption, boolean folds, int firstNumber) {
    List<String> names = headings.stream().map(Html::escaped).toList();
    Html html = new Html(256 + rows.size() * headings.size() * (folds ? 96 : 48));
    html.markup(folds ? "<table class=\"folds\" role=\"table\">" : "<table>")
        .markup("<caption class=\"unseen\">")
        .text(caption)
        .markup("</caption>")
        .markup(folds ? "<thead role=\"rowgroup\"><tr role=\"row\">" : "<thead><tr>");
    for (int column = 0; column < names.size(); column++) {
      html.markup("<th scope=\"col\"")
          .markup(folds ? " role=\"columnheader\"" : "")
          .markup(column >= firstNumber ? " class=\"number\">" : ">")
          .markup(names.get(column))
          .markup("</th>");
    }
    html.markup(folds ? "</tr></thead><tbody role=\"rowgroup\">" : "</tr></thead><tbody>");
    for (List<String> row : rows) {
      html.markup(
              folds
                  ? "\n<tr role=\"row\"><th scope=\"row\" role=\"rowheader\">"
                  : "\n<tr><th scope=\"row\">")
          .text(row.get(0))
          .markup("</th>");
      for (int column = 1; column < row.size(); column++) {
        html.markup(folds ? "<td role=\"cell\"" : "<td");
        if (column >= firstNumber) {
          html.markup(
              row.get(column).equals(UNKNOWN) ? " class=\"number aside\"" : " class=\"number\"");
        }
        if (folds) {
          html.markup(" data-heading=\"").markup(names.get(column)).markup("\"");
        }
        html.markup(">").text(row.get(column)).markup("</td>");
      }
      html.markup("</tr>");
    }
    return html.markup("</tbody></table>").toString();
  }
}
