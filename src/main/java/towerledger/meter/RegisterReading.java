package towerledger.meter;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;

/**
 * What a register showed.
 *
 * @param readAt when; noon of the day for a bare date
 * @param register counts shown, not negative; pulses where a meter counts pulses
 * @param kind read or estimated
 * @param giveOrTake how far the instant may be off, 12 h for a bare date; not negative
 * @param implausible whether it was taken though it lay outside what the model expected
 */
public record RegisterReading(
    Instant readAt, BigDecimal register, Kind kind, Duration giveOrTake, boolean implausible) {

  /** Whether somebody stood before the register. */
  public enum Kind {
    ACTUAL("actual"),
    ESTIMATED("estimated");

    private final String code;

    Kind(String code) {
      this.code = code;
    }

    /** The code used in files. */
    public String code() {
      return code;
    }

    /**
     * The kind with a code, case ignored.
     *
     * @throws IllegalArgumentException naming the codes that exist
     */
    public static Kind ofCode(String code) {
      for (Kind kind : values()) {
        if (kind.code.equalsIgnoreCase(code.strip())) {
          return kind;
        }
      }
      throw new IllegalArgumentException(
          "kind '%s' is not known; use actual or estimated".formatted(code));
    }
  }

  public RegisterReading {
    if (register.signum() < 0) {
      throw new IllegalArgumentException(
          "register of %s read at %s is below 0; registers count upwards from 0"
              .formatted(register.toPlainString(), readAt));
    }
    if (giveOrTake.isNegative()) {
      throw new IllegalArgumentException(
          "reading at %s is off by %s; give 0 or more".formatted(readAt, giveOrTake));
    }
  }

  /** A reading made at a known instant. */
  public static RegisterReading actual(Instant readAt, BigDecimal register) {
    return new RegisterReading(readAt, register, Kind.ACTUAL, Duration.ZERO, false);
  }

  /** Whether this reading gives way when it contradicts another. */
  boolean doubtful() {
    return implausible || kind == Kind.ESTIMATED;
  }
}
