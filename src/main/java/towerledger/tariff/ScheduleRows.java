package towerledger.tariff;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.account.Outcome;

/**
 * Rows of rate_schedules.csv, rate_charges.csv and rate_blocks.csv as they are written, percentages
 * as percentages, codes as text. Null means an empty cell. Each row carries a reference of the
 * caller's, for instance file and line, under which its outcome is returned.
 *
 * @param versions rows of rate_schedules.csv
 * @param charges rows of rate_charges.csv
 * @param blocks rows of rate_blocks.csv
 */
public record ScheduleRows(
    List<VersionRow> versions, List<ChargeRow> charges, List<BlockRow> blocks) {

  public ScheduleRows {
    versions = List.copyOf(versions);
    charges = List.copyOf(charges);
    blocks = List.copyOf(blocks);
  }

  /** A row of rate_schedules.csv. */
  public record VersionRow(
      String reference,
      String schedule,
      String service,
      LocalDate effectiveFrom,
      String billingUnit,
      @Nullable String name,
      @Nullable Integer monthsPerBill,
      @Nullable BigDecimal minimumCharge,
      @Nullable BigDecimal surchargePercent,
      @Nullable BigDecimal taxPercent,
      @Nullable String sewerBasis,
      @Nullable BigDecimal sewerPercent,
      @Nullable String winterMonths,
      @Nullable String evaporationCredit,
      @Nullable BigDecimal creditPercent,
      @Nullable BigDecimal creditMinimumUnits,
      @Nullable BigDecimal creditCapPercent,
      @Nullable String creditDeadline) {

    /** A row with nothing but its required cells. */
    public static VersionRow of(
        String reference,
        String schedule,
        String service,
        LocalDate effectiveFrom,
        String billingUnit) {
      return new VersionRow(
          reference,
          schedule,
          service,
          effectiveFrom,
          billingUnit,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null);
    }
  }

  /** A row of rate_charges.csv. */
  public record ChargeRow(
      String reference,
      String schedule,
      LocalDate effectiveFrom,
      String charge,
      @Nullable Double meterSizeMm,
      BigDecimal amount) {}

  /** A row of rate_blocks.csv. */
  public record BlockRow(
      String reference,
      String schedule,
      LocalDate effectiveFrom,
      @Nullable Integer firstMonth,
      @Nullable Integer lastMonth,
      @Nullable Double meterSizeMm,
      BigDecimal fromUnits,
      BigDecimal rate) {}

  /**
   * What became of a row.
   *
   * @param reference the caller's reference
   * @param outcome what the row did; absent when it was refused
   * @param reason why it was refused and how to mend it; empty when it was taken
   */
  public record Taken(String reference, @Nullable Outcome outcome, String reason) {

    static Taken as(String reference, Outcome outcome) {
      return new Taken(reference, outcome, "");
    }

    static Taken refused(String reference, String reason) {
      return new Taken(reference, null, reason);
    }

    /** Whether the row was refused and nothing of it was stored. */
    public boolean refused() {
      return outcome == null;
    }
  }
}
