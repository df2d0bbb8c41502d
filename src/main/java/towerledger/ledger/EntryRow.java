package towerledger.ledger;

import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.Currency;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.balance.EvidenceGrade;

/**
 * Reads a row of {@link Ledger#FIGURES}, column after column in its order: a page reads some
 * thousand cells, and both drivers look each name up anew.
 */
final class EntryRow {

  private final ResultSet row;
  private int column;

  EntryRow(ResultSet row) {
    this.row = row;
  }

  LedgerEntry read() throws SQLException {
    return new LedgerEntry(
        new LedgerEntry.Of(row.getLong(++column), text(), text(), text(), text(), text(), text()),
        YearMonth.from(row.getObject(++column, LocalDate.class)),
        row.getInt(++column),
        LedgerStatus.ofCode(text()),
        text(),
        text(),
        row.getObject(++column, OffsetDateTime.class).toInstant(),
        grade(),
        water(),
        verdict(),
        new LedgerMoney(
            Currency.getInstance(text()),
            amount(),
            amount(),
            amount(),
            amount(),
            amount(),
            amount()));
  }

  private LedgerWater water() throws SQLException {
    return new LedgerWater(
        number(), number(), number(), number(), number(), number(), number(), number(), number(),
        number(), number(), number(), number(), number(), number(), number(), number(), number(),
        number(), number(), number(), number(), number());
  }

  private LedgerVerdict verdict() throws SQLException {
    return new LedgerVerdict(
        row.getBoolean(++column),
        row.getBoolean(++column),
        Cause.ofCode(text()),
        row.getDouble(++column),
        cause(),
        number(),
        causes(),
        instant());
  }

  private String text() throws SQLException {
    return row.getString(++column);
  }

  private @Nullable Double number() throws SQLException {
    double value = row.getDouble(++column);
    return row.wasNull() ? null : value;
  }

  private @Nullable BigDecimal amount() throws SQLException {
    return row.getBigDecimal(++column);
  }

  private @Nullable EvidenceGrade grade() throws SQLException {
    String grade = row.getString(++column);
    return grade == null ? null : EvidenceGrade.valueOf(grade);
  }

  private @Nullable Cause cause() throws SQLException {
    String code = row.getString(++column);
    return code == null ? null : Cause.ofCode(code);
  }

  private List<Cause> causes() throws SQLException {
    return Arrays.stream(text().split(";")).map(Cause::ofCode).toList();
  }

  private @Nullable Instant instant() throws SQLException {
    OffsetDateTime at = row.getObject(++column, OffsetDateTime.class);
    return at == null ? null : at.toInstant();
  }
}
