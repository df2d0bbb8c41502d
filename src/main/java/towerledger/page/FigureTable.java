package towerledger.page;

import java.util.List;

/**
 * A table of figures as they are read.
 *
 * @param headings one a column, with the unit where the column has one
 * @param rows cells in the order of the headings; the first names the row
 */
public record FigureTable(List<String> headings, List<List<String>> rows) {

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
}
