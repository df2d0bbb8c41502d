package towerledger.meter;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import towerledger.site.Meter;
import towerledger.site.MeterDetails;

/**
 * A meter's register: what one count is worth, where it rolls over, and the part of its life in
 * which it counted for the ledger.
 *
 * @param meter code of the meter, for messages
 * @param litresPerCount litres that pass while the register advances by one, above 0
 * @param digits digits before it rolls over to 0, if known; 1 to 18
 * @param greatestFlowLitresPerSecond the highest flow the size of the meter allows, if known
 * @param installed when it began to count and what it showed then
 * @param removed when it stopped counting and what it showed then
 */
public record Register(
    String meter,
    double litresPerCount,
    OptionalInt digits,
    OptionalDouble greatestFlowLitresPerSecond,
    Mark installed,
    Mark removed) {

  /**
   * One end of a register's life.
   *
   * @param at when, if known
   * @param register what it showed, if known
   */
  public record Mark(Optional<Instant> at, Optional<BigDecimal> register) {

    /** An end of which nothing is known. */
    public static final Mark UNKNOWN = new Mark(Optional.empty(), Optional.empty());

    /** A register seen at an instant. */
    public static Mark of(Instant at, BigDecimal register) {
      return new Mark(Optional.of(at), Optional.of(register));
    }

    /** The reading this end amounts to, when both instant and register are known. */
    Optional<RegisterReading> reading() {
      return at.flatMap(t -> register.map(r -> RegisterReading.actual(t, r)));
    }
  }

  public Register {
    if (!(litresPerCount > 0) || Double.isInfinite(litresPerCount)) {
      throw new IllegalArgumentException(
          "meter %s counts %s L at a time; unit and multiplier must give more than 0"
              .formatted(meter, litresPerCount));
    }
    if (digits.isPresent() && (digits.getAsInt() < 1 || digits.getAsInt() > 18)) {
      throw new IllegalArgumentException(
          "meter %s has %d register digits; give 1 to 18".formatted(meter, digits.getAsInt()));
    }
  }

  /** A register of which only the worth of a count is known. */
  public static Register ofCounts(String meter, double litresPerCount) {
    return new Register(
        meter,
        litresPerCount,
        OptionalInt.empty(),
        OptionalDouble.empty(),
        Mark.UNKNOWN,
        Mark.UNKNOWN);
  }

  /** The register of a meter on file. */
  public static Register of(Meter meter) {
    MeterDetails details = meter.details();
    Integer digits = details.registerDigits();
    return new Register(
        meter.code(),
        details.litresPerCount(),
        digits == null ? OptionalInt.empty() : OptionalInt.of(digits),
        MeterAccuracy.of(details).greatestFlowLitresPerSecond(),
        new Mark(
            Optional.ofNullable(details.installedAt()),
            Optional.ofNullable(details.firstRegister())),
        new Mark(
            Optional.ofNullable(details.removedAt()), Optional.ofNullable(details.lastRegister())));
  }

  /** Counts after which the register begins again at 0, when its digits are known. */
  Optional<BigDecimal> rollOver() {
    return digits.isPresent()
        ? Optional.of(BigDecimal.TEN.pow(digits.getAsInt()))
        : Optional.empty();
  }

  /**
   * Refuses a register value that the meter cannot show.
   *
   * @throws IllegalArgumentException naming value, digits and remedy
   */
  public void requireShowable(BigDecimal register) {
    rollOver()
        .filter(limit -> register.compareTo(limit) >= 0)
        .ifPresent(
            limit -> {
              throw new IllegalArgumentException(
                  "register of %s does not fit on the %d digits of meter %s; correct the reading or register_digits"
                      .formatted(register.toPlainString(), digits.getAsInt(), meter));
            });
  }

  /** Litres in a number of counts. */
  double litres(BigDecimal counts) {
    return counts.doubleValue() * litresPerCount;
  }

  /**
   * Whether a roll-over that implies this many counts could have happened: not more than the meter
   * can pass in the time, or, where its size is not known, not more than half its register.
   */
  boolean couldPass(BigDecimal counts, Duration within) {
    if (greatestFlowLitresPerSecond.isPresent()) {
      return litres(counts) <= greatestFlowLitresPerSecond.getAsDouble() * within.toSeconds();
    }
    return rollOver().filter(limit -> counts.add(counts).compareTo(limit) <= 0).isPresent();
  }
}
