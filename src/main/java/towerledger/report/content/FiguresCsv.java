package towerledger.report.content;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import towerledger.account.UnitPreference;
import towerledger.balance.Cause;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.wording.SpreadsheetGuard;

/**
 * The figures behind a report as CSV (RFC 4180), one row a system. Columns are named and mean what
 * they do in the ledger's own file; volumes are in the customer's unit, which ends their names.
 */
final class FiguresCsv {

  private FiguresCsv() {}

  static String of(List<LedgerEntry> rows, UnitPreference units) {
    VolumeUnit unit = units == UnitPreference.US ? VolumeUnit.US_GALLON : VolumeUnit.CUBIC_METRE;
    String suffix = units == UnitPreference.US ? "_gal" : "_m3";
    List<String> headings =
        new ArrayList<>(
            List.of("system", "name", "site", "month", "status", "revision", "evidence"));
    LedgerWater.VOLUME_NAMES.forEach(volume -> headings.add(volume + suffix));
    headings.addAll(
        List.of(
            "cycles",
            "target_cycles",
            "flagged",
            "waste",
            "likeliest_cause",
            "cause_probability",
            "cause_set",
            "currency",
            "loss_amount",
            "loss_amount_low",
            "loss_amount_high",
            "evaporation_credit_amount"));
    var out = new StringWriter();
    try (var printer =
        new CSVPrinter(
            out, CSVFormat.RFC4180.builder().setHeader(headings.toArray(String[]::new)).get())) {
      for (LedgerEntry row : rows) {
        printer.printRecord(cells(row, unit));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  private static List<Object> cells(LedgerEntry row, VolumeUnit unit) {
    List<Object> cells = new ArrayList<>();
    cells.add(SpreadsheetGuard.apply(row.of().system()));
    cells.add(SpreadsheetGuard.apply(row.of().systemName()));
    cells.add(SpreadsheetGuard.apply(row.of().siteName()));
    cells.add(row.month().toString());
    cells.add(row.status().code());
    cells.add(row.revision());
    cells.add(row.evidence() == null ? "" : row.evidence().name());
    for (Double litres : row.water().volumes()) {
      cells.add(
          litres == null
              ? ""
              : BigDecimal.valueOf(Volume.ofLitres(litres).in(unit))
                  .setScale(unit == VolumeUnit.US_GALLON ? 1 : 3, RoundingMode.HALF_UP)
                  .toPlainString());
    }
    cells.add(number(row.water().cycles()));
    cells.add(number(row.water().targetCycles()));
    cells.add(row.verdict().flagged() ? 1 : 0);
    cells.add(row.verdict().waste() ? 1 : 0);
    cells.add(row.verdict().likeliest().code());
    cells.add(number(row.verdict().probability()));
    cells.add(row.verdict().causeSet().stream().map(Cause::code).collect(Collectors.joining(";")));
    cells.add(row.money().currency().getCurrencyCode());
    cells.add(amount(row.wasteAmount()));
    cells.add(amount(row.verdict().waste() ? row.money().lossLow() : null));
    cells.add(amount(row.verdict().waste() ? row.money().lossHigh() : null));
    cells.add(amount(row.money().creditAmount()));
    return cells;
  }

  private static String number(@Nullable Double value) {
    return value == null
        ? ""
        : BigDecimal.valueOf(value).setScale(3, RoundingMode.HALF_UP).toPlainString();
  }

  private static String amount(@Nullable BigDecimal value) {
    return value == null ? "" : value.setScale(2, RoundingMode.HALF_UP).toPlainString();
  }
}
