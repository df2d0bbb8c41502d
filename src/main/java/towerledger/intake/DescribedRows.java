package towerledger.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.EmptyValues;
import towerledger.account.Viewer;
import towerledger.intake.csv.Column;
import towerledger.wording.SpreadsheetGuard;

/**
 * Single rows of the interchange format for forms: which columns a file has, what a row says now,
 * and taking one by the same rules as an import. Whoever uses it may see everything.
 */
@Service
public class DescribedRows {

  private static final String ORIGIN = "form";

  private final KnownFiles known;
  private final Importer importer;
  private final JdbcTemplate jdbc;

  DescribedRows(KnownFiles known, Importer importer, JdbcTemplate jdbc) {
    this.known = known;
    this.importer = importer;
    this.jdbc = jdbc;
  }

  /**
   * Columns of a file in their order.
   *
   * @param file its name without {@code .csv}
   * @throws IllegalArgumentException when there is no such file
   */
  public List<Column> listColumns(String file) {
    return known
        .find(file)
        .orElseThrow(
            () -> new IllegalArgumentException("files named '%s' are not known".formatted(file)))
        .columns()
        .all();
  }

  /** A column by its US or SI name; empty where there is no such file or column. */
  public Optional<Column> find(String file, String name) {
    return known.find(file).stream()
        .flatMap(format -> format.columns().all().stream())
        .filter(column -> column.name().equals(name) || column.siName().equals(name))
        .findFirst();
  }

  /**
   * Columns of every file by their SI names, as history keeps them; of two of one name the first.
   */
  public Map<String, Column> columnsBySiName() {
    return known.all().stream()
        .flatMap(format -> format.columns().all().stream())
        .collect(Collectors.toMap(Column::siName, Function.identity(), (first, other) -> first));
  }

  /**
   * What a row says now, by SI names of the columns; empty cells are left out.
   *
   * @param key cells that name the row, by column
   */
  @Transactional(readOnly = true)
  public Optional<Map<String, String>> find(String file, Map<String, String> key) {
    return findCells(file, key)
        .map(
            cells -> {
              cells.replaceAll((column, cell) -> SpreadsheetGuard.undo(cell));
              return cells;
            });
  }

  /** A row as an export writes it, by SI names of its columns without the empty ones. */
  private Optional<Map<String, String>> findCells(String file, Map<String, String> key) {
    ExportFile export =
        ExportFiles.ALL.stream()
            .filter(candidate -> candidate.name().equals(file))
            .findFirst()
            .orElseThrow();
    List<Map<String, String>> found = new ArrayList<>();
    jdbc.query(
        export.sql(),
        row -> {
          Map<String, String> cells = new LinkedHashMap<>();
          for (int i = 0; i < export.columns().size(); i++) {
            ExportFile.Cell column = export.columns().get(i);
            String cell = Export.cell(row, i + 1, column.form());
            if (cell != null && !cell.isEmpty()) {
              cells.put(column.name(), cell);
            }
          }
          if (key.entrySet().stream()
              .allMatch(part -> part.getValue().equals(cells.get(part.getKey())))) {
            found.add(cells);
          }
        });
    return found.stream().findFirst();
  }

  /**
   * Changes some cells of a row that is there; the others stay exactly as they are.
   *
   * @param key cells that name the row, by column
   * @param changes values by US or SI name of their column; an empty one empties the cell
   * @return why it was not taken, naming the column and the remedy; empty when it was
   */
  public Optional<String> edit(
      Viewer viewer,
      Actor actor,
      String file,
      Map<String, String> key,
      Map<String, String> changes) {
    Quarantine.Retry retry =
        importer.takeOne(
            file,
            () -> text(changed(file, findCells(file, key).orElse(key), changes)),
            EmptyValues.CLEAR,
            new ImportRequest(actor, viewer, ORIGIN));
    return retry.taken() ? Optional.empty() : Optional.of(retry.reason());
  }

  private Map<String, String> changed(
      String file, Map<String, String> cells, Map<String, String> changes) {
    Map<String, String> changed = new LinkedHashMap<>(cells);
    for (Column column : listColumns(file)) {
      String name = changes.containsKey(column.name()) ? column.name() : column.siName();
      String value = changes.get(name);
      if (value != null) {
        changed.remove(column.siName());
      }
      // A column that each row fills stays, so that the refusal says which is empty.
      if (value != null && (column.required() || !value.isBlank())) {
        changed.put(name, value);
      }
    }
    return changed;
  }

  /**
   * Takes a row; nothing goes to quarantine.
   *
   * @param cells values by US or SI name of their column; empty ones leave what is known
   * @return why it was not taken, naming the column and the remedy; empty when it was
   */
  public Optional<String> take(Viewer viewer, Actor actor, String file, Map<String, String> cells) {
    Quarantine.Retry retry =
        importer.retry(file, text(cells), new ImportRequest(actor, viewer, ORIGIN));
    return retry.taken() ? Optional.empty() : Optional.of(retry.reason());
  }

  private static String text(Map<String, String> cells) {
    CSVFormat csv = CSVFormat.RFC4180;
    return csv.format(cells.keySet().toArray()) + "\n" + csv.format(cells.values().toArray());
  }
}
