package towerledger.ledger;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;

/** What of a system's facts belongs to one month: which months there are, and a digest of each. */
final class MonthFacts {

  /** A month begins to be reckoned once this much of it is on record. */
  private static final Duration LEAST_RECORD = Duration.ofDays(5);

  /** Bytes that an interval and an hour of weather add to a digest. */
  private static final int INTERVAL_BYTES = Long.BYTES + Integer.BYTES + Double.BYTES;

  private static final int HOUR_BYTES = 3 * Double.BYTES;

  private MonthFacts() {}

  /**
   * First month with a fact of the system's own, else with weather.
   *
   * @return empty when there are no facts at all
   */
  static Optional<YearMonth> findFirst(SystemFacts facts) {
    Optional<Instant> own =
        Stream.of(
                facts.heat().stream().map(h -> h.span().startInclusive()),
                facts.samples().stream().map(s -> s.takenAt()),
                facts.meters().stream().flatMap(MonthFacts::starts))
            .flatMap(s -> s)
            .min(Instant::compareTo);
    return own.or(() -> weatherStart(facts.weather()))
        .map(instant -> CalendarMonth.containing(instant, facts.zone()).month());
  }

  /** Last month of which five days are on record. */
  static Optional<YearMonth> findLast(SystemFacts facts, Instant now) {
    return Stream.of(
            facts.heat().stream().map(h -> h.span().endExclusive()),
            facts.samples().stream().map(s -> s.takenAt()),
            weatherEnd(facts.weather()).stream(),
            facts.meters().stream().flatMap(MonthFacts::ends))
        .flatMap(s -> s)
        .max(Instant::compareTo)
        .map(latest -> latest.isAfter(now) ? now : latest)
        .map(latest -> CalendarMonth.containing(latest.minus(LEAST_RECORD), facts.zone()).month());
  }

  /** When what a meter measured begins: each register volume, and the first interval. */
  static Stream<Instant> starts(MeterFacts meter) {
    IntervalVolumes intervals = meter.intervals();
    Stream<Instant> registers =
        meter.registers().stream()
            .filter(RegisterVolume::shareable)
            .map(r -> r.span().startInclusive());
    return intervals.size() == 0
        ? registers
        : Stream.concat(registers, Stream.of(Instant.ofEpochSecond(intervals.startEpochSecond(0))));
  }

  private static Stream<Instant> ends(MeterFacts meter) {
    IntervalVolumes intervals = meter.intervals();
    Stream<Instant> registers = meter.registers().stream().map(r -> r.span().endExclusive());
    return intervals.size() == 0
        ? registers
        : Stream.concat(
            registers,
            Stream.of(Instant.ofEpochSecond(intervals.startEpochSecond(intervals.size() - 1))));
  }

  private static Optional<Instant> weatherStart(WeatherHours weather) {
    for (int hour = 0; hour < weather.hours(); hour++) {
      if (!Double.isNaN(weather.dryBulbC(hour))) {
        return Optional.of(weather.start().plusSeconds(3600L * hour));
      }
    }
    return Optional.empty();
  }

  private static Optional<Instant> weatherEnd(WeatherHours weather) {
    for (int hour = weather.hours() - 1; hour >= 0; hour--) {
      if (!Double.isNaN(weather.dryBulbC(hour)) && !weather.filled(hour)) {
        return Optional.of(weather.start().plusSeconds(3600L * (hour + 1)));
      }
    }
    return Optional.empty();
  }

  /**
   * Digest of the facts and settings of one month. Equal digests mean that nothing of that month
   * changed, whatever was learnt of others.
   *
   * @param money what the month was priced by, in words
   * @param heatText writes heat evidence
   */
  static String digest(SystemFacts facts, YearMonth month, String money, HeatText heatText) {
    Span span = CalendarMonth.of(month, facts.zone()).span();
    MessageDigest digest = sha256();
    try (var out =
        new DataOutputStream(
            new BufferedOutputStream(
                new DigestOutputStream(OutputStream.nullOutputStream(), digest)))) {
      out.writeUTF(String.valueOf(facts.attributes()));
      out.writeUTF(String.valueOf(facts.towers()));
      out.writeUTF(money);
      for (OperatingSettings settings : facts.settings()) {
        if (settings.effectiveFrom().isBefore(span.endExclusive())) {
          out.writeUTF(settings.toString());
        }
      }
      heat(out, facts.heat(), span, heatText);
      text(out, facts.samples().stream().filter(s -> span.contains(s.takenAt())));
      text(out, facts.pressures().stream().filter(p -> span.contains(p.takenAt())));
      text(out, facts.visits().stream().filter(v -> span.contains(v.at())));
      for (MeterFacts meter : facts.meters()) {
        meter(out, meter, span);
      }
      weather(out, facts.weather(), span);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static void heat(DataOutputStream out, List<HeatEvidence> heat, Span span, HeatText text)
      throws IOException {
    for (HeatEvidence evidence : heat) {
      if (!evidence.span().startInclusive().isBefore(span.endExclusive())) {
        return; // in order of their start
      }
      if (evidence.span().overlaps(span)) {
        ascii(out, text.of(evidence));
      }
    }
  }

  /** What {@link DataOutputStream#writeUTF} writes of plain characters, at less cost. */
  private static void ascii(DataOutputStream out, String text) throws IOException {
    out.writeShort(text.length());
    out.write(text.getBytes(StandardCharsets.ISO_8859_1));
  }

  private static void text(DataOutputStream out, Stream<?> facts) throws IOException {
    for (Object fact : facts.toList()) {
      out.writeUTF(fact.toString());
    }
  }

  private static void meter(DataOutputStream out, MeterFacts meter, Span span) throws IOException {
    out.writeUTF(
        meter.meter()
            + meter.role()
            + meter.type()
            + meter.accuracyFraction()
            + meter.sizeMm()
            + meter.removedAt().filter(at -> at.isBefore(span.endExclusive())));
    text(out, meter.registers().stream().filter(r -> r.span().overlaps(span)));
    IntervalVolumes intervals = meter.intervals();
    long start = span.startInclusive().getEpochSecond();
    long end = span.endExclusive().getEpochSecond();
    ByteBuffer within = ByteBuffer.allocate(intervals.size() * INTERVAL_BYTES);
    for (int i = 0; i < intervals.size(); i++) {
      long at = intervals.startEpochSecond(i);
      if (at >= start && at < end) {
        within.putLong(at).putInt(intervals.minutes(i)).putDouble(intervals.litres(i));
      }
    }
    out.write(within.array(), 0, within.position());
  }

  private static void weather(DataOutputStream out, WeatherHours weather, Span span)
      throws IOException {
    long first = Duration.between(weather.start(), span.startInclusive()).toHours();
    long last = Duration.between(weather.start(), span.endExclusive()).toHours();
    int from = (int) Math.max(0, Math.min(weather.hours(), first));
    int to = (int) Math.max(from, Math.min(weather.hours(), last));
    ByteBuffer hours = ByteBuffer.allocate((to - from) * HOUR_BYTES);
    for (int i = from; i < to; i++) {
      hours
          .putDouble(weather.dryBulbC(i))
          .putDouble(weather.wetBulbC(i))
          .putDouble(weather.pressurePa(i));
    }
    out.write(hours.array());
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
