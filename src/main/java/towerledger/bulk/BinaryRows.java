package towerledger.bulk;

import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.postgresql.copy.CopyIn;
import org.postgresql.util.ByteConverter;

/**
 * Rows in the binary form of {@code COPY}. Source: PostgreSQL documentation, COPY, section 'Binary
 * Format'; numbers in network order, instants in microseconds and dates in days since 2000-01-01.
 */
final class BinaryRows {

  private static final byte[] SIGNATURE = {
    'P', 'G', 'C', 'O', 'P', 'Y', '\n', (byte) 0xFF, '\r', '\n', 0
  };
  private static final long EPOCH_SECONDS = Instant.parse("2000-01-01T00:00:00Z").getEpochSecond();
  private static final long EPOCH_DAYS = LocalDate.of(2000, 1, 1).toEpochDay();
  private static final int BUFFER_BYTES = 64 * 1024;

  private final List<BulkColumn> columns;
  private final CopyIn copy;
  private ByteBuffer buffer = ByteBuffer.allocate(BUFFER_BYTES);

  BinaryRows(List<BulkColumn> columns, CopyIn copy) {
    this.columns = columns;
    this.copy = copy;
    buffer.put(SIGNATURE).putInt(0).putInt(0);
  }

  void write(@Nullable Object[] row) throws SQLException {
    room(2);
    buffer.putShort((short) row.length);
    for (int i = 0; i < row.length; i++) {
      Object cell = row[i];
      room(12);
      if (cell == null) {
        buffer.putInt(-1);
      } else {
        write(columns.get(i).type(), cell);
      }
    }
  }

  private void write(BulkType type, Object cell) throws SQLException {
    switch (type) {
      case BIGINT -> buffer.putInt(8).putLong((Long) cell);
      case SMALLINT -> buffer.putInt(2).putShort((Short) cell);
      case INTEGER -> buffer.putInt(4).putInt((Integer) cell);
      case DOUBLE -> buffer.putInt(8).putDouble((Double) cell);
      case BOOLEAN -> buffer.putInt(1).put((byte) (((Boolean) cell) ? 1 : 0));
      case INSTANT -> {
        Instant instant = (Instant) cell;
        long micros =
            (instant.getEpochSecond() - EPOCH_SECONDS) * 1_000_000 + instant.getNano() / 1000;
        buffer.putInt(8).putLong(micros);
      }
      case DATE -> buffer.putInt(4).putInt((int) (((LocalDate) cell).toEpochDay() - EPOCH_DAYS));
      case DECIMAL -> bytes(ByteConverter.numeric((BigDecimal) cell));
      case TEXT -> bytes(((String) cell).getBytes(StandardCharsets.UTF_8));
    }
  }

  private void bytes(byte[] bytes) throws SQLException {
    buffer.putInt(bytes.length);
    room(bytes.length);
    buffer.put(bytes);
  }

  private void room(int bytes) throws SQLException {
    if (buffer.remaining() < bytes) {
      flush();
      if (buffer.capacity() < bytes) {
        buffer = ByteBuffer.allocate(bytes);
      }
    }
  }

  void finish() throws SQLException {
    room(2);
    buffer.putShort((short) -1);
    flush();
  }

  private void flush() throws SQLException {
    copy.writeToCopy(buffer.array(), 0, buffer.position());
    buffer.clear();
  }
}
