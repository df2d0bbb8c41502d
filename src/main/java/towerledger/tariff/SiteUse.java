package towerledger.tariff;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a site used in a bill period: everything a bill is made of but the rates.
 *
 * @param startInclusive first day of the period
 * @param endExclusive first day no longer in it
 * @param water water through the service meter
 * @param wholeSite whether {@code water} is the whole site's; false when only the towers' own is
 *     known, so that blocks are filled from the bottom and marginal prices may be too low
 * @param meterSize size of the service meter, where rates depend on it
 * @param towers systems whose evaporation credit is on the sewer bill; empty when none is claimed
 * @param returnMeter volume of the meter on the sewer connection, where sewer is billed by it
 * @param winterAverage average water use of a regular winter bill, where sewer is capped by it
 */
public record SiteUse(
    LocalDate startInclusive,
    LocalDate endExclusive,
    Usage water,
    boolean wholeSite,
    @Nullable MeterSize meterSize,
    List<TowerWater> towers,
    @Nullable Usage returnMeter,
    @Nullable Usage winterAverage) {

  public SiteUse {
    towers = List.copyOf(towers);
    if (!endExclusive.isAfter(startInclusive)) {
      throw new IllegalArgumentException(
          "bill period ends %s, not after its start %s; give the first day no longer included"
              .formatted(endExclusive, startInclusive));
    }
  }

  /** Use of the whole site, with nothing else known. */
  public static SiteUse of(LocalDate startInclusive, LocalDate endExclusive, Usage water) {
    return new SiteUse(startInclusive, endExclusive, water, true, null, List.of(), null, null);
  }

  /** The same period with another use of water. */
  public SiteUse withWater(Usage usage) {
    return new SiteUse(
        startInclusive,
        endExclusive,
        usage,
        wholeSite,
        meterSize,
        towers,
        returnMeter,
        winterAverage);
  }

  /** The same use, told to be the towers' own only. */
  public SiteUse withTowersOwnWaterOnly() {
    return new SiteUse(
        startInclusive, endExclusive, water, false, meterSize, towers, returnMeter, winterAverage);
  }

  /** With the size of the site's meter; null where it is not known. */
  public SiteUse withMeterSize(@Nullable MeterSize size) {
    return new SiteUse(
        startInclusive, endExclusive, water, wholeSite, size, towers, returnMeter, winterAverage);
  }

  /** With the water of the site's systems. */
  public SiteUse withTowers(List<TowerWater> systems) {
    return new SiteUse(
        startInclusive,
        endExclusive,
        water,
        wholeSite,
        meterSize,
        systems,
        returnMeter,
        winterAverage);
  }

  /** With what the return meter on the sewer counted; null where there is none. */
  public SiteUse withReturnMeter(@Nullable Usage usage) {
    return new SiteUse(
        startInclusive, endExclusive, water, wholeSite, meterSize, towers, usage, winterAverage);
  }

  /** With the winter's average use a bill of this length; null where it is not known. */
  public SiteUse withWinterAverage(@Nullable Usage usage) {
    return new SiteUse(
        startInclusive, endExclusive, water, wholeSite, meterSize, towers, returnMeter, usage);
  }
}
