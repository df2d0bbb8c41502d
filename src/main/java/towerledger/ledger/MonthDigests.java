package towerledger.ledger;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;

/**
 * Digests of what is known of systems' months. Equal digests mean that nothing of a month changed,
 * whatever was learnt of others. They are kept with every revision: what is digested, and in which
 * order, must never change. For one thread.
 */
final class MonthDigests {

  /** Bytes that an interval and an hour of weather add to a digest. */
  private static final int INTERVAL_BYTES = Long.BYTES + Integer.BYTES + Double.BYTES;

  private static final int HOUR_BYTES = 3 * Double.BYTES;

  private final MessageDigest sha256 = sha256();
  private final HeatText heatText = new HeatText();
  private final DigestText out = new DigestText();

  /** Digests of a system's months. */
  OfSystem of(SystemFacts facts) {
    return new OfSystem(facts);
  }

  /** Digests of one system's months; what all have in common is put into words once. */
  final class OfSystem {

    private final SystemFacts facts;
    private final String attributes;
    private final String towers;
    private final List<String> settings;

    /** The latest end of heat evidence up to each, in order of their begin. */
    private final Instant[] heatReaches;

    private OfSystem(SystemFacts facts) {
      this.facts = facts;
      attributes = facts.attributes().toString();
      towers = facts.towers().toString();
      settings = facts.settings().stream().map(OperatingSettings::toString).toList();
      heatReaches = new Instant[facts.heat().size()];
      Instant latest = Instant.MIN;
      for (int i = 0; i < heatReaches.length; i++) {
        Instant end = facts.heat().get(i).span().endExclusive();
        latest = end.isAfter(latest) ? end : latest;
        heatReaches[i] = latest;
      }
    }

    /**
     * Digest of the facts and settings of one month.
     *
     * @param money what the month was priced by, in words
     */
    String digest(YearMonth month, String money) {
      Span span = CalendarMonth.of(month, facts.zone()).span();
      out.text(attributes);
      out.text(towers);
      out.text(money);
      for (int i = 0; i < settings.size(); i++) {
        if (facts.settings().get(i).effectiveFrom().isBefore(span.endExclusive())) {
          out.text(settings.get(i));
        }
      }
      heat(span);
      text(facts.samples().stream().filter(s -> span.contains(s.takenAt())));
      text(facts.pressures().stream().filter(p -> span.contains(p.takenAt())));
      text(facts.visits().stream().filter(v -> span.contains(v.at())));
      for (MeterFacts meter : facts.meters()) {
        meter(meter, span);
      }
      weather(facts.weather(), span);
      out.moveTo(sha256);
      return HexFormat.of().formatHex(sha256.digest());
    }

    private void heat(Span span) {
      List<HeatEvidence> heat = facts.heat();
      int before = Arrays.binarySearch(heatReaches, span.startInclusive());
      // What ends with the month's begin is passed over below, however many do.
      for (int i = before < 0 ? -before - 1 : before; i < heat.size(); i++) {
        HeatEvidence evidence = heat.get(i);
        if (!evidence.span().startInclusive().isBefore(span.endExclusive())) {
          return; // in order of their start
        }
        if (evidence.span().overlaps(span)) {
          heatText.write(evidence, out);
        }
      }
    }
  }

  private void text(Stream<?> facts) {
    facts.forEach(fact -> out.text(fact.toString()));
  }

  private void meter(MeterFacts meter, Span span) {
    out.text(
        meter.meter()
            + meter.role()
            + meter.type()
            + meter.accuracyFraction()
            + meter.sizeMm()
            + meter.removedAt().filter(at -> at.isBefore(span.endExclusive())));
    text(meter.registers().stream().filter(r -> r.span().overlaps(span)));
    IntervalVolumes intervals = meter.intervals();
    int from = firstAt(intervals, span.startInclusive().getEpochSecond());
    int to = firstAt(intervals, span.endExclusive().getEpochSecond());
    ByteBuffer within = out.numbers((to - from) * INTERVAL_BYTES);
    for (int i = from; i < to; i++) {
      within
          .putLong(intervals.startEpochSecond(i))
          .putInt(intervals.minutes(i))
          .putDouble(intervals.litres(i));
    }
  }

  /** The first interval that begins at or after an instant; their number where none does. */
  private static int firstAt(IntervalVolumes intervals, long epochSecond) {
    int low = 0;
    int high = intervals.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (intervals.startEpochSecond(middle) < epochSecond) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private void weather(WeatherHours weather, Span span) {
    long first = Duration.between(weather.start(), span.startInclusive()).toHours();
    long last = Duration.between(weather.start(), span.endExclusive()).toHours();
    int from = (int) Math.max(0, Math.min(weather.hours(), first));
    int to = (int) Math.max(from, Math.min(weather.hours(), last));
    ByteBuffer hours = out.numbers((to - from) * HOUR_BYTES);
    for (int i = from; i < to; i++) {
      hours
          .putDouble(weather.dryBulbC(i))
          .putDouble(weather.wetBulbC(i))
          .putDouble(weather.pressurePa(i));
    }
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
