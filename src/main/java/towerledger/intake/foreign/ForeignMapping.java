package towerledger.intake.foreign;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a table of others becomes a file of the interchange format.
 *
 * @param file the interchange file without {@code .csv}, such as {@code register_readings}
 * @param delimiter what stands between cells: comma, semicolon, tab or bar; comma if absent
 * @param decimal what stands before the decimals, {@code .} or {@code ,}; a point if absent
 * @param headerRow number of the row that names the columns, counted from 1; 1 if absent
 * @param columns the columns filled
 */
public record ForeignMapping(
    String file,
    @Nullable String delimiter,
    @Nullable String decimal,
    @JsonProperty("header_row") @Nullable Integer headerRow,
    List<ForeignColumn> columns) {

  /** A header lies within so many rows. */
  public static final int LOWEST_HEADER = 50;

  public ForeignMapping {
    columns = List.copyOf(columns);
    if (delimiter != null && !List.of(",", ";", "\t", "|").contains(delimiter)) {
      throw new IllegalArgumentException(
          "delimiter '%s' is not known; use a comma, semicolon, tab or bar".formatted(delimiter));
    }
    if (decimal != null && !decimal.equals(".") && !decimal.equals(",")) {
      throw new IllegalArgumentException(
          "decimal '%s' is not known; use . or ,".formatted(decimal));
    }
    if (headerRow != null && (headerRow < 1 || headerRow > LOWEST_HEADER)) {
      throw new IllegalArgumentException(
          "header_row %d is outside 1 to %d; give the row that names the columns"
              .formatted(headerRow, LOWEST_HEADER));
    }
  }

  char separator() {
    return delimiter == null ? ',' : delimiter.charAt(0);
  }

  boolean decimalComma() {
    return ",".equals(decimal);
  }

  int headerAt() {
    return headerRow == null ? 1 : headerRow;
  }
}
