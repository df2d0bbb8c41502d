package towerledger.ledger;

import java.time.Instant;
import java.time.LocalDate;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.HeatEvidence;

/**
 * Writes heat evidence into a digest as its records print themselves, at a small part of the cost:
 * a system may have one for every hour of a year, and each is written for its month's digest. For
 * one thread.
 */
final class HeatText {

  private static final int SECONDS_PER_DAY = 86_400;

  /** Numbers kept as text: instruments tell tenths, and so the same few numbers all year. */
  private static final int NUMBERS = 2048;

  private static final byte[] SPAN = DigestText.plain("[span=Span[startInclusive=");
  private static final byte[] SPAN_END = DigestText.plain(", endExclusive=");
  private static final byte[] TEMPERATURES = DigestText.plain("WaterTemperatures");
  private static final byte[] HOT = DigestText.plain("], hotC=");
  private static final byte[] COLD = DigestText.plain(", coldC=");
  private static final byte[] FLOW = DigestText.plain(", waterFlowKgPerSecond=");
  private static final byte[] METERED = DigestText.plain("HeatRejected");
  private static final byte[] JOULES = DigestText.plain("], joules=");
  private static final byte[] ERROR = DigestText.plain(", errorFraction=OptionalDouble[");
  private static final byte[] ERROR_END = DigestText.plain("]]");
  private static final byte[] NO_ERROR = DigestText.plain(", errorFraction=OptionalDouble.empty]");
  private static final byte[] UTC = DigestText.plain("Z");

  private final long[] numbers = new long[NUMBERS];
  private final byte[] @Nullable [] asText = new byte[NUMBERS][];
  private long dayWritten = Long.MIN_VALUE;
  private byte[] day = {};

  /** Writes what {@code evidence.toString()} says. */
  void write(HeatEvidence evidence, DigestText out) {
    if (evidence instanceof HeatEvidence.WaterTemperatures water) {
      begin(TEMPERATURES, water, out);
      out.piece(HOT);
      out.piece(number(water.hotC()));
      out.piece(COLD);
      out.piece(number(water.coldC()));
      out.piece(FLOW);
      out.piece(number(water.waterFlowKgPerSecond()));
    } else if (evidence instanceof HeatEvidence.HeatRejected metered) {
      begin(METERED, metered, out);
      out.piece(JOULES);
      out.piece(number(metered.joules()));
    } else {
      out.text(evidence.toString());
      return;
    }
    OptionalDouble error = evidence.errorFraction();
    if (error.isPresent()) {
      out.piece(ERROR);
      out.piece(number(error.getAsDouble()));
      out.piece(ERROR_END);
    } else {
      out.piece(NO_ERROR);
    }
    out.end();
  }

  private byte[] number(double value) {
    long bits = Double.doubleToRawLongBits(value);
    int at = (int) ((bits * 0x9E3779B97F4A7C15L) >>> 53);
    byte[] known = asText[at];
    if (known == null || numbers[at] != bits) {
      known = DigestText.plain(Double.toString(value));
      numbers[at] = bits;
      asText[at] = known;
    }
    return known;
  }

  private void begin(byte[] name, HeatEvidence evidence, DigestText out) {
    out.begin();
    out.piece(name);
    out.piece(SPAN);
    instant(evidence.span().startInclusive(), out);
    out.piece(SPAN_END);
    instant(evidence.span().endExclusive(), out);
  }

  private void instant(Instant instant, DigestText out) {
    long second = instant.getEpochSecond();
    if (instant.getNano() != 0) {
      out.piece(DigestText.plain(instant.toString()));
      return;
    }
    long epochDay = Math.floorDiv(second, (long) SECONDS_PER_DAY);
    if (epochDay != dayWritten) {
      dayWritten = epochDay;
      day = DigestText.plain(LocalDate.ofEpochDay(epochDay).toString());
    }
    int ofDay = (int) (second - epochDay * SECONDS_PER_DAY);
    out.piece(day);
    out.two('T', ofDay / 3600);
    out.two(':', ofDay / 60 % 60);
    out.two(':', ofDay % 60);
    out.piece(UTC);
  }
}
