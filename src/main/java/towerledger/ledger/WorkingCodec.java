package towerledger.ledger;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.zip.Deflater;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.springframework.stereotype.Component;
import tools.jackson.databind.PropertyNamingStrategies;
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes a derivation as gzipped JSON and reads it back: it is a dozen kilobytes of text for each
 * of very many rows, read one at a time.
 */
@Component
class WorkingCodec {

  private final JsonMapper json;

  WorkingCodec(JsonMapper json) {
    this.json = json.rebuild().propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE).build();
  }

  byte[] write(MonthWorking working) {
    var bytes = new ByteArrayOutputStream(2048);
    try (var zip = new FastGzip(bytes)) {
      json.writeValue(zip, working);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  MonthWorking read(byte[] stored) {
    try (var unzip = new GZIPInputStream(new ByteArrayInputStream(stored))) {
      return json.readValue(unzip, MonthWorking.class);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static final class FastGzip extends GZIPOutputStream {
    FastGzip(ByteArrayOutputStream out) throws IOException {
      super(out);
      def.setLevel(Deflater.BEST_SPEED);
    }
  }
}
