package towerledger.site;

import jakarta.persistence.Embeddable;
import java.math.BigDecimal;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.VolumeUnit;

/**
 * What is known of a water meter. Null means not known.
 *
 * @param role what it measures for the ledger
 * @param unit unit of its register
 * @param multiplier register times this is the volume in {@code unit}; gallons per pulse go here
 * @param registerDigits digits before the register rolls over, 1 to 18
 * @param accuracyPercent accuracy class, ± percent
 * @param sizeMm nominal size
 * @param type how it measures
 * @param parentMeter code of the meter whose water it measures again
 * @param source where the water comes from
 * @param purpose words on what it is for
 * @param installedAt when it began to count
 * @param firstRegister register at installation
 * @param removedAt when it stopped counting; after {@code installedAt}
 * @param lastRegister register at removal
 */
@Embeddable
public record MeterDetails(
    MeterRole role,
    String unit,
    BigDecimal multiplier,
    @Nullable Integer registerDigits,
    @Nullable Double accuracyPercent,
    @Nullable Double sizeMm,
    @Nullable MeterType type,
    @Nullable String parentMeter,
    @Nullable WaterSource source,
    @Nullable String purpose,
    @Nullable Instant installedAt,
    @Nullable BigDecimal firstRegister,
    @Nullable Instant removedAt,
    @Nullable BigDecimal lastRegister) {

  public MeterDetails {
    multiplier = plain(multiplier);
    firstRegister = firstRegister == null ? null : plain(firstRegister);
    lastRegister = lastRegister == null ? null : plain(lastRegister);
    if (multiplier.signum() <= 0) {
      throw new IllegalArgumentException(
          "multiplier of %s is not above 0; give volume per register count".formatted(multiplier));
    }
    if (registerDigits != null && (registerDigits < 1 || registerDigits > 18)) {
      throw new IllegalArgumentException(
          "register_digits of %d is outside 1 to 18; count the wheels of the register"
              .formatted(registerDigits));
    }
    if (installedAt != null && removedAt != null && !removedAt.isAfter(installedAt)) {
      throw new IllegalArgumentException(
          "removed_at %s is not after installed_at %s; check the two"
              .formatted(removedAt, installedAt));
    }
  }

  /** The unit of the register. */
  public VolumeUnit volumeUnit() {
    return VolumeUnit.ofCode(unit);
  }

  /** Litres that pass while the register advances by one. */
  public double litresPerCount() {
    return multiplier.doubleValue() * volumeUnit().litres();
  }

  /** This with another multiplier. */
  public MeterDetails withMultiplier(BigDecimal multiplier) {
    return new MeterDetails(
        role,
        unit,
        multiplier,
        registerDigits,
        accuracyPercent,
        sizeMm,
        type,
        parentMeter,
        source,
        purpose,
        installedAt,
        firstRegister,
        removedAt,
        lastRegister);
  }

  /** This with every known value of a newer row put over it; not known never wipes out known. */
  public MeterDetails updatedBy(MeterDetails newer) {
    return new MeterDetails(
        newer.role,
        newer.unit,
        newer.multiplier,
        Known.or(newer.registerDigits, registerDigits),
        Known.or(newer.accuracyPercent, accuracyPercent),
        Known.or(newer.sizeMm, sizeMm),
        Known.or(newer.type, type),
        Known.or(newer.parentMeter, parentMeter),
        Known.or(newer.source, source),
        Known.or(newer.purpose, purpose),
        Known.or(newer.installedAt, installedAt),
        Known.or(newer.firstRegister, firstRegister),
        Known.or(newer.removedAt, removedAt),
        Known.or(newer.lastRegister, lastRegister));
  }

  /** Databases pad decimals with zeros; equal values must be equal records. */
  private static BigDecimal plain(BigDecimal number) {
    return number.signum() == 0 ? BigDecimal.ZERO : number.stripTrailingZeros();
  }
}
