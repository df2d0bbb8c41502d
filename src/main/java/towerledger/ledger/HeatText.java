package towerledger.ledger;

import java.time.Instant;
import java.time.LocalDate;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.HeatEvidence;

/**
 * Writes heat evidence as its records print themselves, at a quarter of the cost: a system may have
 * one for every hour of a year, and each is written for its month's digest. For one thread.
 */
final class HeatText {

  private static final int SECONDS_PER_DAY = 86_400;

  /** Numbers kept as text: instruments tell tenths, and so the same few numbers all year. */
  private static final int NUMBERS = 2048;

  private final StringBuilder text = new StringBuilder(256);
  private final long[] numbers = new long[NUMBERS];
  private final @Nullable String[] asText = new String[NUMBERS];
  private long dayWritten = Long.MIN_VALUE;
  private String day = "";

  /** What {@code evidence.toString()} says. */
  String of(HeatEvidence evidence) {
    if (evidence instanceof HeatEvidence.WaterTemperatures water) {
      begin("WaterTemperatures", water);
      text.append(", hotC=").append(number(water.hotC()));
      text.append(", coldC=").append(number(water.coldC()));
      text.append(", waterFlowKgPerSecond=").append(number(water.waterFlowKgPerSecond()));
    } else if (evidence instanceof HeatEvidence.HeatRejected metered) {
      begin("HeatRejected", metered);
      text.append(", joules=").append(number(metered.joules()));
    } else {
      return evidence.toString();
    }
    text.append(", errorFraction=");
    OptionalDouble error = evidence.errorFraction();
    if (error.isPresent()) {
      text.append("OptionalDouble[").append(number(error.getAsDouble())).append(']');
    } else {
      text.append("OptionalDouble.empty");
    }
    return text.append(']').toString();
  }

  private String number(double value) {
    long bits = Double.doubleToRawLongBits(value);
    int at = (int) ((bits * 0x9E3779B97F4A7C15L) >>> 53);
    String known = asText[at];
    if (known == null || numbers[at] != bits) {
      known = Double.toString(value);
      numbers[at] = bits;
      asText[at] = known;
    }
    return known;
  }

  private void begin(String name, HeatEvidence evidence) {
    text.setLength(0);
    text.append(name).append("[span=Span[startInclusive=");
    instant(evidence.span().startInclusive());
    text.append(", endExclusive=");
    instant(evidence.span().endExclusive());
    text.append(']');
  }

  private void instant(Instant instant) {
    long second = instant.getEpochSecond();
    if (instant.getNano() != 0) {
      text.append(instant);
      return;
    }
    long epochDay = Math.floorDiv(second, (long) SECONDS_PER_DAY);
    if (epochDay != dayWritten) {
      dayWritten = epochDay;
      day = LocalDate.ofEpochDay(epochDay).toString();
    }
    int ofDay = (int) (second - epochDay * SECONDS_PER_DAY);
    text.append(day);
    two('T', ofDay / 3600);
    two(':', ofDay / 60 % 60);
    two(':', ofDay % 60);
    text.append('Z');
  }

  private void two(char before, int number) {
    text.append(before).append((char) ('0' + number / 10)).append((char) ('0' + number % 10));
  }
}
