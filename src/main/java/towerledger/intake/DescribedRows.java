package towerledger.intake;

import java.util.ArrayList;
import java.util.Comparator;
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
import towerledger.account.Viewer;
import towerledger.intake.csv.Column;
import towerledger.intake.file.FileFormat;
import towerledger.wording.SpreadsheetGuard;

/**
 * Single rows of the interchange format for forms: which columns a file has, what a row says now,
 * and taking one by the same rules as an import. Whoever uses it may see everything.
 */
@Service
public class DescribedRows {

  private final Map<String, FileFormat<?>> formats;
  private final Importer importer;
  private final JdbcTemplate jdbc;

  DescribedRows(List<FileFormat<?>> formats, Importer importer, JdbcTemplate jdbc) {
    this.formats =
        formats.stream()
            .collect(Collectors.toMap(format -> format.columns().file(), Function.identity()));
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
    FileFormat<?> format = formats.get(file);
    if (format == null) {
      throw new IllegalArgumentException("files named '%s' are not known".formatted(file));
    }
    return format.columns().all();
  }

  /** A column by its US or SI name; empty where there is no such file or column. */
  public Optional<Column> find(String file, String name) {
    FileFormat<?> format = formats.get(file);
    return format == null
        ? Optional.empty()
        : format.columns().all().stream()
            .filter(column -> column.name().equals(name) || column.siName().equals(name))
            .findFirst();
  }

  /**
   * Columns of every file by their SI names, as history keeps them; of two of one name the first.
   */
  public Map<String, Column> columnsBySiName() {
    return formats.values().stream()
        .sorted(Comparator.comparingInt(FileFormat::order))
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
              cells.put(column.name(), SpreadsheetGuard.undo(cell));
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
   * Takes a row; nothing goes to quarantine.
   *
   * @param cells values by US or SI name of their column; empty ones leave what is known
   * @return why it was not taken, naming the column and the remedy; empty when it was
   */
  public Optional<String> take(Viewer viewer, Actor actor, String file, Map<String, String> cells) {
    CSVFormat csv = CSVFormat.RFC4180;
    String text =
        csv.format(cells.keySet().toArray()) + "\n" + csv.format(cells.values().toArray());
    Quarantine.Retry retry = importer.retry(file, text, new ImportRequest(actor, viewer, "form"));
    return retry.taken() ? Optional.empty() : Optional.of(retry.reason());
  }
}
