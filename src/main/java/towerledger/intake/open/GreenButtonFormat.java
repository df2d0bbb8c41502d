package towerledger.intake.open;

import java.io.IOException;
import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.intake.greenbutton.GreenButtonFormatException;
import towerledger.intake.greenbutton.GreenButtonInterval;
import towerledger.intake.greenbutton.GreenButtonReader;
import towerledger.intake.greenbutton.GreenButtonSink;

/**
 * Green Button (ESPI) feeds of water. A feed knows addresses, not meters: the meter's code is the
 * file's name without {@code .xml}, and a feed holds one meter reading.
 */
@Component
class GreenButtonFormat implements OpenFormat {

  @Override
  public boolean reads(String name) {
    return name.endsWith(".xml");
  }

  @Override
  public String file() {
    return "interval_volumes";
  }

  @Override
  public List<String> columns() {
    return List.of("meter", "start", "minutes", "volume_l");
  }

  @Override
  public void prepare(String name, Source source) {
    // A feed brings no equipment.
  }

  @Override
  public void read(String name, Source source, Sink sink) throws IOException {
    String meter = name.substring(0, name.length() - ".xml".length()).strip();
    Readings readings = new Readings(meter, sink);
    try {
      GreenButtonReader.read(source::open, readings);
    } catch (GreenButtonFormatException e) {
      throw new OpenFormatProblem(String.valueOf(e.getMessage()), e);
    }
    if (!readings.any) {
      sink.note(
          "the feed holds no IntervalReading in the namespace http://naesb.org/espi, so nothing was taken");
    }
  }

  /** Hands readings of the first meter reading over. */
  private static final class Readings implements GreenButtonSink {

    private final String meter;
    private final Sink sink;
    private @Nullable String only;
    private boolean any;

    Readings(String meter, Sink sink) {
      this.meter = meter;
      this.sink = sink;
    }

    @Override
    public void interval(long line, GreenButtonInterval interval) {
      any = true;
      if (only == null) {
        only = interval.meterReading();
      }
      List<String> cells =
          List.of(
              meter,
              interval.start().toString(),
              Integer.toString(interval.minutes()),
              BigDecimal.valueOf(interval.litres()).toPlainString());
      if (only.equals(interval.meterReading())) {
        sink.row(line, cells);
      } else {
        sink.refused(
            line,
            String.join(",", cells),
            "the feed holds more than one meter reading, %s and %s; send each in a file of its own, named after its meter"
                .formatted(only, interval.meterReading()));
      }
    }

    @Override
    public void refused(long line, String raw, String reason) {
      any = true;
      sink.refused(line, raw, reason);
    }
  }
}
