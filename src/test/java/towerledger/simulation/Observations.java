package towerledger.simulation;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What people and instruments wrote down about one system: rows as the interchange files hold. */
public record Observations(
    List<Meter> meters,
    List<Reading> readings,
    List<Interval> intervals,
    List<Sample> samples,
    List<Pressure> pressures,
    List<Heat> heats,
    List<Visit> visits,
    List<Setting> settings) {

  /** A meter; the register counts {@code multiplier} units. */
  public record Meter(
      String code,
      String role,
      String unit,
      double multiplier,
      int digits,
      int decimals,
      double accuracyPercent,
      double sizeIn,
      String type,
      @Nullable String parent,
      @Nullable String source,
      @Nullable String purpose,
      Instant installedAt,
      double firstRegister,
      @Nullable Instant removedAt,
      @Nullable Double lastRegister) {}

  /** A register as read; a reading of which only the day was noted says so. */
  public record Reading(
      String meter, Instant at, boolean dayOnly, double register, boolean estimated) {}

  /** A volume that a logger kept. */
  public record Interval(String meter, Instant start, int minutes, double gallons) {}

  /** A water analysis. */
  public record Sample(
      Instant at,
      double makeupUsCm,
      double basinUsCm,
      @Nullable Double makeupChloride,
      @Nullable Double basinChloride,
      @Nullable Double makeupCalcium,
      @Nullable Double basinCalcium) {}

  /** Pressures before and after the regulator. */
  public record Pressure(Instant at, double supplyPsi, @Nullable Double inletPsi) {}

  /** Forms in which heat is known. */
  public enum HeatForm {
    HEAT_REJECTED,
    TON_HOURS,
    CHILLER_KWH,
    RUNNING_HOURS,
    TEMPERATURES
  }

  /**
   * Heat evidence: MMBtu; ton-hours and kW/ton; kWh and kW/ton; hours and load percent; hot and
   * cold °F with gpm.
   */
  public record Heat(
      Instant start, Instant end, HeatForm form, double first, double second, double third) {}

  /** A technician's visit. */
  public record Visit(
      Instant at,
      List<String> events,
      @Nullable Double drainedGal,
      List<String> findings,
      @Nullable Double handheldUsCm,
      @Nullable Double controllerUsCm,
      @Nullable Double basinF,
      String observation,
      String work) {}

  /** A dated setting. */
  public record Setting(LocalDate from, String setting, String value, String reason) {}
}
