package towerledger.intake.foreign;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.quantity.VolumeUnit;

/**
 * Turns rows of a foreign table into rows of the interchange format. What cannot be turned goes on
 * as it stands, so that it waits in quarantine with the usual reason and nothing is lost.
 */
public final class Converter {

  private static final Pattern WITH_POINT = Pattern.compile("[-+]?\\d{1,3}(,\\d{3})+(\\.\\d*)?");
  private static final Pattern WITH_COMMA =
      Pattern.compile("[-+]?(\\d{1,3}([. \u00A0']\\d{3})+|\\d+)?(,\\d*)?");

  private final ForeignMapping mapping;
  private final List<Cell> cells = new ArrayList<>();

  /** One column ready to be filled. */
  private record Cell(
      ForeignColumn of, int at, int andAt, boolean number, @Nullable BigDecimal factor) {}

  /**
   * A converter of one table.
   *
   * @param columns columns of the interchange file
   * @param header the foreign columns
   * @throws IllegalArgumentException when the mapping names columns that are not there, or units
   *     that do not fit
   */
  Converter(ForeignMapping mapping, Columns columns, List<String> header) {
    this.mapping = mapping;
    for (ForeignColumn of : mapping.columns()) {
      Column column =
          columns.all().stream()
              .filter(
                  known -> known.name().equals(of.column()) || known.siName().equals(of.column()))
              .findFirst()
              .orElseThrow(
                  () ->
                      new IllegalArgumentException(
                          "%s.csv has no column '%s'; it has %s"
                              .formatted(
                                  columns.file(),
                                  of.column(),
                                  columns.all().stream().map(Column::name).toList())));
      cells.add(
          new Cell(
              of,
              place(header, of.from()),
              place(header, of.and()),
              column.lowest() < column.highest(),
              factor(of)));
    }
  }

  /** The interchange columns in the order of the converted cells. */
  public List<String> header() {
    return mapping.columns().stream().map(ForeignColumn::column).toList();
  }

  /** A row of the foreign table under the interchange columns. */
  public List<String> convert(List<String> row) {
    return cells.stream().map(cell -> convert(cell, row)).toList();
  }

  private String convert(Cell cell, List<String> row) {
    ForeignColumn of = cell.of();
    if (of.constant() != null) {
      return of.constant();
    }
    String text = at(row, cell.at());
    if (of.and() != null) {
      text = (text + " " + at(row, cell.andAt())).strip();
    }
    if (text.isEmpty()) {
      return text;
    }
    if (of.pattern() != null) {
      return DatePatterns.isIso(text) ? text : DatePatterns.iso(of.pattern(), text).orElse(text);
    }
    if (!cell.number()) {
      return text;
    }
    String plain = number(text);
    BigDecimal factor = cell.factor();
    if (factor == null || !plain.matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)")) {
      return plain;
    }
    return new BigDecimal(plain).multiply(factor, MathContext.DECIMAL64).toPlainString();
  }

  private static String at(List<String> row, int place) {
    return place < 0 || place >= row.size() ? "" : row.get(place).replace('\u00A0', ' ').strip();
  }

  /** A number with a point before its decimals and nothing between its thousands. */
  private String number(String text) {
    if (mapping.decimalComma()) {
      return WITH_COMMA.matcher(text).matches()
          ? text.replaceAll("[. \u00A0']", "").replace(',', '.')
          : text;
    }
    return WITH_POINT.matcher(text).matches() ? text.replace(",", "") : text;
  }

  private static int place(List<String> header, @Nullable String name) {
    if (name == null) {
      return -1;
    }
    for (int i = 0; i < header.size(); i++) {
      if (header.get(i).strip().equalsIgnoreCase(name.strip())) {
        return i;
      }
    }
    throw new IllegalArgumentException(
        "the table has no column '%s'; it has %s".formatted(name, header));
  }

  private static @Nullable BigDecimal factor(ForeignColumn of) {
    if (of.unit() == null) {
      return null;
    }
    Optional<VolumeUnit> target =
        of.column().endsWith("_gal")
            ? Optional.of(VolumeUnit.US_GALLON)
            : of.column().endsWith("_l") ? Optional.of(VolumeUnit.LITRE) : Optional.empty();
    if (target.isEmpty()) {
      throw new IllegalArgumentException(
          "column '%s' takes no unit; choose its US or SI name instead".formatted(of.column()));
    }
    double ratio =
        VolumeUnit.ofCode(of.unit().toLowerCase(Locale.ROOT)).litres() / target.get().litres();
    return BigDecimal.valueOf(ratio);
  }
}
