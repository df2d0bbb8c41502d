package towerledger.intake.greenbutton;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Second walk through a feed: hands on every interval reading of water. */
final class IntervalReadings implements FeedHandler {

  private static final int LONGEST_MINUTES = 46_080;
  private static final Instant EARLIEST = Instant.parse("1990-01-01T00:00:00Z");
  private static final Instant LATEST = Instant.parse("2200-01-01T00:00:00Z");

  /** QualityOfReading: 12 a forecast, 15 a value moved to another weather. */
  private static final Set<String> NOT_MEASURED = Set.of("12", "15");

  private final Map<Integer, FeedResources.Owner> owners;
  private final GreenButtonSink sink;
  private FeedResources.@Nullable Owner owner;
  private boolean inside;
  private String start = "";
  private String duration = "";
  private String value = "";
  private String quality = "";

  IntervalReadings(Map<Integer, FeedResources.Owner> owners, GreenButtonSink sink) {
    this.owners = owners;
    this.sink = sink;
  }

  @Override
  public void entry(int number) {
    owner = owners.get(number);
    inside = false;
  }

  @Override
  public void link(String relation, String address) {
    // Links were followed on the first walk.
  }

  @Override
  public void start(String name) {
    if (name.equals("IntervalReading")) {
      inside = true;
      start = "";
      duration = "";
      value = "";
      quality = "";
    }
  }

  @Override
  public void value(String parent, String name, String text) {
    if (!inside) {
      return;
    }
    if (parent.equals("timePeriod") && name.equals("start")) {
      start = text;
    } else if (parent.equals("timePeriod") && name.equals("duration")) {
      duration = text;
    } else if (parent.equals("IntervalReading") && name.equals("value")) {
      value = text;
    } else if (parent.equals("ReadingQuality") && name.equals("quality")) {
      quality = text;
    }
  }

  @Override
  public void end(String name, long line) {
    if (name.equals("IntervalReading") && inside) {
      inside = false;
      hand(line);
    }
  }

  private void hand(long line) {
    FeedResources.Owner of = owner;
    if (of != null) {
      duration = duration.isEmpty() ? of.type().intervalSeconds() : duration;
      quality = quality.isEmpty() ? of.type().quality() : quality;
    }
    String raw = "start=%s duration=%s value=%s".formatted(start, duration, value);
    if (of == null) {
      sink.refused(line, raw, "the reading stands in no entry of interval blocks");
      return;
    }
    if (of.type().refusal().isPresent()) {
      sink.refused(line, raw, of.type().refusal().get());
      return;
    }
    if (NOT_MEASURED.contains(quality)) {
      sink.refused(
          line,
          raw,
          "the value is projected or normalised for weather (quality %s), not what passed the meter"
              .formatted(quality));
      return;
    }
    try {
      sink.interval(line, interval(of));
    } catch (NumberFormatException e) {
      sink.refused(
          line,
          raw,
          "start and duration in seconds, the value and its quality must be whole numbers: "
              + e.getMessage());
    } catch (DateTimeException | IllegalArgumentException e) {
      sink.refused(line, raw, String.valueOf(e.getMessage()));
    }
  }

  private GreenButtonInterval interval(FeedResources.Owner of) {
    Instant from = Instant.ofEpochSecond(Long.parseLong(start));
    if (from.isBefore(EARLIEST) || from.isAfter(LATEST)) {
      throw new IllegalArgumentException(
          "the interval begins %s, outside %s to %s; check the seconds"
              .formatted(from, EARLIEST, LATEST));
    }
    long seconds = Long.parseLong(duration);
    if (seconds < 60 || seconds % 60 != 0 || seconds / 60 > LONGEST_MINUTES) {
      throw new IllegalArgumentException(
          "the interval lasts %d s; whole minutes from 1 to %d are taken"
              .formatted(seconds, LONGEST_MINUTES));
    }
    long amount = Long.parseLong(value);
    if (amount < 0) {
      throw new IllegalArgumentException(
          "the value %d is negative; water does not flow back through an interval meter"
              .formatted(amount));
    }
    int minutes = (int) (seconds / 60);
    return new GreenButtonInterval(
        of.usagePoint(),
        of.meterReading(),
        from,
        minutes,
        of.type().litres(amount, minutes),
        quality.isEmpty() ? OptionalInt.empty() : OptionalInt.of(Integer.parseInt(quality)));
  }
}
