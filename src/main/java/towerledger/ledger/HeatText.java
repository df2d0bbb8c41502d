package towerledger.ledger;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
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

  private static final byte[] REJECTED = DigestText.plain("HeatRejected");
  private static final byte[] CHILLED = DigestText.plain("ChilledWater");
  private static final byte[] CHILLER = DigestText.plain("ChillerElectricity");
  private static final byte[] RUNNING = DigestText.plain("RunningHours");
  private static final byte[] TEMPERATURES = DigestText.plain("WaterTemperatures");
  private static final byte[] SPAN = DigestText.plain("[span=Span[startInclusive=");
  private static final byte[] SPAN_END = DigestText.plain(", endExclusive=");
  private static final byte[] TIME = DigestText.plain("Thh:mm:ssZ");
  private static final byte[] JOULES = DigestText.plain("], joules=");
  private static final byte[] PER_TON = DigestText.plain(", kwPerTon=");
  private static final byte[] HOURS = DigestText.plain("], hours=");
  private static final byte[] LOAD = DigestText.plain(", loadFraction=");
  private static final byte[] HOT = DigestText.plain("], hotC=");
  private static final byte[] COLD = DigestText.plain(", coldC=");
  private static final byte[] FLOW = DigestText.plain(", waterFlowKgPerSecond=");
  private static final byte[] ERROR = DigestText.plain(", errorFraction=");
  private static final byte[] SOME = DigestText.plain("OptionalDouble[");
  private static final byte[] NONE = DigestText.plain("OptionalDouble.empty");
  private static final byte[] END = DigestText.plain("]");

  /** Stands for a number among the pieces until it is put into words. */
  private static final byte[] NUMBER = {};

  /** Pieces of one evidence at most. */
  private static final int PIECES = 20;

  private final long[] numbers = new long[NUMBERS];
  private final byte[] @Nullable [] asText = new byte[NUMBERS][];
  private final byte[][] pieces = new byte[PIECES][];
  private final double[] figures = new double[PIECES];
  private int used;
  private long dayWritten = Long.MIN_VALUE;
  private byte[] day = {};

  /** The last instant written: an hour begins where the one before it ended. */
  private long secondWritten = Long.MIN_VALUE;

  private byte[] instantWritten = {};

  /**
   * Writes what {@code evidence.toString()} says. Pieces are gathered first, put into words in one
   * place and copied in one place: where each was by itself, and where records print themselves,
   * compiling this method took three to four seconds of processor time after every start.
   */
  void write(HeatEvidence evidence, DigestText out) {
    used = 1;
    add(SPAN);
    add(instant(evidence.span().startInclusive()));
    add(SPAN_END);
    add(instant(evidence.span().endExclusive()));
    pieces[0] = figures(evidence);
    optional(ERROR, evidence.errorFraction());
    add(END);
    for (int i = 0; i < used; i++) {
      if (pieces[i] == NUMBER) {
        pieces[i] = number(figures[i]);
      }
    }
    out.text(pieces, used);
  }

  /** Adds the figures of an evidence and tells its name. */
  private byte[] figures(HeatEvidence evidence) {
    if (evidence instanceof HeatEvidence.WaterTemperatures water) {
      figure(HOT, water.hotC());
      figure(COLD, water.coldC());
      figure(FLOW, water.waterFlowKgPerSecond());
      return TEMPERATURES;
    }
    if (evidence instanceof HeatEvidence.ChillerElectricity electricity) {
      figure(JOULES, electricity.joules());
      figure(PER_TON, electricity.kwPerTon());
      return CHILLER;
    }
    if (evidence instanceof HeatEvidence.HeatRejected rejected) {
      figure(JOULES, rejected.joules());
      return REJECTED;
    }
    if (evidence instanceof HeatEvidence.ChilledWater chilled) {
      figure(JOULES, chilled.joules());
      optional(PER_TON, chilled.kwPerTon());
      return CHILLED;
    }
    var running = (HeatEvidence.RunningHours) evidence;
    figure(HOURS, running.hours());
    figure(LOAD, running.loadFraction());
    return RUNNING;
  }

  private void optional(byte[] name, OptionalDouble value) {
    add(name);
    if (value.isPresent()) {
      figure(SOME, value.getAsDouble());
      add(END);
    } else {
      add(NONE);
    }
  }

  private void figure(byte[] name, double value) {
    add(name);
    figures[used] = value;
    add(NUMBER);
  }

  private void add(byte[] piece) {
    pieces[used++] = piece;
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

  private byte[] instant(Instant instant) {
    if (instant.getNano() != 0) {
      return DigestText.plain(instant.toString());
    }
    if (instant.getEpochSecond() != secondWritten) {
      secondWritten = instant.getEpochSecond();
      instantWritten = wholeSecond(secondWritten);
    }
    return instantWritten;
  }

  private byte[] wholeSecond(long second) {
    long epochDay = Math.floorDiv(second, (long) SECONDS_PER_DAY);
    if (epochDay != dayWritten) {
      dayWritten = epochDay;
      day = DigestText.plain(LocalDate.ofEpochDay(epochDay).toString());
    }
    int ofDay = (int) (second - epochDay * SECONDS_PER_DAY);
    byte[] text = Arrays.copyOf(day, day.length + TIME.length);
    System.arraycopy(TIME, 0, text, day.length, TIME.length);
    two(text, day.length + 1, ofDay / 3600);
    two(text, day.length + 4, ofDay / 60 % 60);
    two(text, day.length + 7, ofDay % 60);
    return text;
  }

  private static void two(byte[] text, int at, int number) {
    text[at] = (byte) ('0' + number / 10);
    text[at + 1] = (byte) ('0' + number % 10);
  }
}
