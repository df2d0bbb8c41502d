package towerledger.ledger;

import java.time.Instant;
import java.time.LocalDate;
import towerledger.balance.facts.HeatEvidence;

/**
 * Writes heat evidence as its records print themselves, at a quarter of the cost: a system may have
 * one for every hour of a year, and each is written for its month's digest. For one thread.
 */
final class HeatText {

  private static final int SECONDS_PER_DAY = 86_400;

  private final StringBuilder text = new StringBuilder();
  private long dayWritten = Long.MIN_VALUE;
  private String day = "";

  /** What {@code evidence.toString()} says. */
  String of(HeatEvidence evidence) {
    if (evidence instanceof HeatEvidence.WaterTemperatures water) {
      begin("WaterTemperatures", water);
      text.append(", hotC=").append(water.hotC());
      text.append(", coldC=").append(water.coldC());
      text.append(", waterFlowKgPerSecond=").append(water.waterFlowKgPerSecond());
    } else if (evidence instanceof HeatEvidence.HeatRejected metered) {
      begin("HeatRejected", metered);
      text.append(", joules=").append(metered.joules());
    } else {
      return evidence.toString();
    }
    return text.append(", errorFraction=").append(evidence.errorFraction()).append(']').toString();
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
