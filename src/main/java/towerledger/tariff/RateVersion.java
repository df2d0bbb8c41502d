package towerledger.tariff;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.VolumeUnit;

/**
 * The rates of one schedule from a day on, until the next version begins.
 *
 * @param effectiveFrom first day the rates hold
 * @param billingUnit unit the utility bills in
 * @param monthsPerBill months a regular bill covers, 1–12
 * @param charges fixed amounts per bill
 * @param tables block tables; empty when nothing is charged by volume
 * @param minimumCharge smallest charge of a bill before surcharge and tax; absent when there is
 *     none
 * @param surchargeShare added to the charges, as a share, 0 or more
 * @param taxShare added to charges and surcharge, as a share, 0 or more
 * @param sewer which volume is charged; matters to a sewer schedule only
 * @param credit the evaporation credit; matters to a sewer schedule only
 */
public record RateVersion(
    LocalDate effectiveFrom,
    VolumeUnit billingUnit,
    int monthsPerBill,
    List<Charge> charges,
    List<BlockTable> tables,
    @Nullable BigDecimal minimumCharge,
    BigDecimal surchargeShare,
    BigDecimal taxShare,
    SewerRule sewer,
    CreditRule credit) {

  public RateVersion {
    charges = List.copyOf(charges);
    tables = List.copyOf(tables);
    if (monthsPerBill < 1 || monthsPerBill > 12) {
      throw new IllegalArgumentException(
          "months_per_bill of %d is outside 1 to 12; give the months a regular bill covers"
              .formatted(monthsPerBill));
    }
    if (minimumCharge != null && minimumCharge.signum() < 0) {
      throw new IllegalArgumentException(
          "minimum_charge of %s is below 0; leave it empty where there is none"
              .formatted(minimumCharge.toPlainString()));
    }
    VersionChecks.requirePercent("surcharge_percent", surchargeShare);
    VersionChecks.requirePercent("tax_percent", taxShare);
    VersionChecks.requireDistinctCharges(charges);
    VersionChecks.requireSeasonsFit(tables);
  }

  /** A version without any rate yet, billed monthly. */
  public static RateVersion from(LocalDate effectiveFrom, VolumeUnit billingUnit) {
    return new RateVersion(
        effectiveFrom,
        billingUnit,
        1,
        List.of(),
        List.of(),
        null,
        BigDecimal.ZERO,
        BigDecimal.ZERO,
        SewerRule.METERED_WATER,
        CreditRule.NONE);
  }

  /** With another length of a regular bill, in whole months, 1 to 12. */
  public RateVersion withMonthsPerBill(int months) {
    return copy(months, charges, tables, minimumCharge, surchargeShare, taxShare, sewer, credit);
  }

  /** With one more charge that does not depend on the meter. */
  public RateVersion withCharge(String name, String amount) {
    return withCharge(new Charge(name, null, new BigDecimal(amount)));
  }

  /** With one more charge. */
  public RateVersion withCharge(Charge charge) {
    List<Charge> more = new ArrayList<>(charges);
    more.add(charge);
    return copy(
        monthsPerBill, more, tables, minimumCharge, surchargeShare, taxShare, sewer, credit);
  }

  /** With these block tables instead of those before. */
  public RateVersion withTables(List<BlockTable> blockTables) {
    return copy(
        monthsPerBill,
        charges,
        blockTables,
        minimumCharge,
        surchargeShare,
        taxShare,
        sewer,
        credit);
  }

  /** With one block table for all meters and the whole year: pairs of from-units and rate. */
  public RateVersion withBlocks(String... fromUnitsAndRates) {
    return withTables(List.of(BlockTable.of(null, null, fromUnitsAndRates)));
  }

  /** With a minimum charge a bill, in the currency of the site's customer, not below 0. */
  public RateVersion withMinimumCharge(String amount) {
    return copy(
        monthsPerBill,
        charges,
        tables,
        new BigDecimal(amount),
        surchargeShare,
        taxShare,
        sewer,
        credit);
  }

  /** With a surcharge as a share of charges, blocks and minimum: 0.025 is 2.5 %. */
  public RateVersion withSurchargeShare(String share) {
    return copy(
        monthsPerBill,
        charges,
        tables,
        minimumCharge,
        new BigDecimal(share),
        taxShare,
        sewer,
        credit);
  }

  /** With a tax as a share of all before it, surcharge included: 0.03 is 3 %. */
  public RateVersion withTaxShare(String share) {
    return copy(
        monthsPerBill,
        charges,
        tables,
        minimumCharge,
        surchargeShare,
        new BigDecimal(share),
        sewer,
        credit);
  }

  /** With another rule of what sewer is charged on. */
  public RateVersion withSewer(SewerRule rule) {
    return copy(
        monthsPerBill, charges, tables, minimumCharge, surchargeShare, taxShare, rule, credit);
  }

  /** With another rule for evaporation credits. */
  public RateVersion withCredit(CreditRule rule) {
    return copy(
        monthsPerBill, charges, tables, minimumCharge, surchargeShare, taxShare, sewer, rule);
  }

  /** The same rates from another day on. */
  public RateVersion withEffectiveFrom(LocalDate day) {
    return new RateVersion(
        day,
        billingUnit,
        monthsPerBill,
        charges,
        tables,
        minimumCharge,
        surchargeShare,
        taxShare,
        sewer,
        credit);
  }

  /** Meter sizes the rates distinguish, ascending; empty when they do not. */
  public List<MeterSize> meterSizes() {
    List<MeterSize> sizes = new ArrayList<>();
    charges.forEach(charge -> addSize(sizes, charge.meterSize()));
    tables.forEach(table -> addSize(sizes, table.meterSize()));
    return sizes.stream().distinct().sorted(Comparator.naturalOrder()).toList();
  }

  /** Whether the volume rates, or the winter months of the sewer rule, change with the season. */
  boolean isSeasonal() {
    if (sewer.basis() == SewerRule.Basis.WINTER_AVERAGE) {
      return true;
    }
    for (BlockTable table : tables) {
      if (table.season() != null) {
        return true;
      }
    }
    return false;
  }

  /**
   * The block table for a month and a meter: one for this meter size goes before one for all, then
   * one for the season before one for the whole year.
   *
   * @return null when the version charges nothing by volume
   * @throws TariffException when there are tables and none fits
   */
  @Nullable BlockTable findTable(String schedule, int month, @Nullable MeterSize size) {
    if (tables.isEmpty()) {
      return null;
    }
    BlockTable best = null;
    int bestRank = -1;
    for (BlockTable table : tables) {
      if ((table.season() != null && !table.season().contains(month))
          || (table.meterSize() != null && !table.meterSize().equals(size))) {
        continue;
      }
      int rank = (table.meterSize() == null ? 0 : 2) + (table.season() == null ? 0 : 1);
      if (rank > bestRank) {
        best = table;
        bestRank = rank;
      }
    }
    if (best == null) {
      throw meterSizeMissing(schedule, "blocks", size);
    }
    return best;
  }

  /** Whether a charge is on the bill of a meter of this size. */
  boolean applies(Charge charge, @Nullable MeterSize size) {
    if (charge.meterSize() != null) {
      return charge.meterSize().equals(size);
    }
    for (Charge other : charges) {
      if (other.meterSize() != null
          && other.meterSize().equals(size)
          && other.name().equals(charge.name())) {
        return false;
      }
    }
    return true;
  }

  /**
   * Checks that every charge by meter size has an amount for this meter.
   *
   * @throws TariffException naming the sizes there are
   */
  void requireMeterSize(String schedule, @Nullable MeterSize size) {
    for (int i = 0; i < charges.size(); i++) {
      Charge charge = charges.get(i);
      if (charge.meterSize() == null || charge.meterSize().equals(size)) {
        continue;
      }
      boolean found = false;
      for (Charge other : charges) {
        found |=
            other.name().equals(charge.name())
                && (other.meterSize() == null || other.meterSize().equals(size));
      }
      if (!found) {
        throw meterSizeMissing(schedule, "charge '" + charge.name() + "'", size);
      }
    }
  }

  private TariffException meterSizeMissing(String schedule, String what, @Nullable MeterSize size) {
    return new TariffException(
        schedule,
        "%s of schedule %s from %s depends on the meter size and has none for %s; give one of %s"
            .formatted(
                what,
                schedule,
                effectiveFrom,
                size == null ? "an unknown size" : size,
                meterSizes().stream().map(MeterSize::toString).collect(Collectors.joining(", "))));
  }

  private RateVersion copy(
      int months,
      List<Charge> newCharges,
      List<BlockTable> newTables,
      @Nullable BigDecimal minimum,
      BigDecimal surcharge,
      BigDecimal tax,
      SewerRule sewerRule,
      CreditRule creditRule) {
    return new RateVersion(
        effectiveFrom,
        billingUnit,
        months,
        newCharges,
        newTables,
        minimum,
        surcharge,
        tax,
        sewerRule,
        creditRule);
  }

  private static void addSize(List<MeterSize> sizes, @Nullable MeterSize size) {
    if (size != null) {
      sizes.add(size);
    }
  }

  /**
   * A fixed amount on every bill.
   *
   * @param name name on the bill
   * @param meterSize meter size the amount is for; absent when it is for all others
   * @param amount per bill; negative for a rebate
   */
  public record Charge(String name, @Nullable MeterSize meterSize, BigDecimal amount) {

    public Charge {
      if (name.isBlank()) {
        throw new IllegalArgumentException("a charge has no name; give the one on the bill");
      }
    }
  }

  /**
   * A block begins above a number of units, so the limit itself belongs to the block below.
   *
   * @param fromUnits units per bill after which the block begins, 0 or more
   * @param rate price of one unit in the block, 0 or more
   */
  public record Block(BigDecimal fromUnits, BigDecimal rate) {

    public Block {
      if (fromUnits.signum() < 0) {
        throw new IllegalArgumentException(
            "from_units of %s is below 0; the first block begins at 0"
                .formatted(fromUnits.toPlainString()));
      }
      if (rate.signum() < 0) {
        throw new IllegalArgumentException(
            "rate of %s is below 0; write a rebate as a charge with a negative amount"
                .formatted(rate.toPlainString()));
      }
    }
  }

  /**
   * The blocks of a season and a meter size.
   *
   * @param season months the table holds in; absent for the whole year
   * @param meterSize meter size it is for; absent for all others
   * @param blocks ascending, the first from 0
   */
  public record BlockTable(
      @Nullable Season season, @Nullable MeterSize meterSize, List<Block> blocks) {

    public BlockTable {
      blocks = List.copyOf(blocks);
      if (blocks.isEmpty() || blocks.get(0).fromUnits().signum() != 0) {
        throw new IllegalArgumentException(
            "the first block begins at %s units; it has to begin at 0"
                .formatted(blocks.isEmpty() ? "no" : blocks.get(0).fromUnits().toPlainString()));
      }
      for (int i = 1; i < blocks.size(); i++) {
        if (blocks.get(i).fromUnits().compareTo(blocks.get(i - 1).fromUnits()) <= 0) {
          throw new IllegalArgumentException(
              "block %d begins at %s units, not above block %d at %s; put the blocks in rising order"
                  .formatted(
                      i + 1,
                      blocks.get(i).fromUnits().toPlainString(),
                      i,
                      blocks.get(i - 1).fromUnits().toPlainString()));
        }
      }
    }

    /** A table from pairs of from-units and rate. */
    public static BlockTable of(
        @Nullable Season season, @Nullable MeterSize meterSize, String... fromUnitsAndRates) {
      List<Block> blocks = new ArrayList<>();
      for (int i = 0; i < fromUnitsAndRates.length; i += 2) {
        blocks.add(
            new Block(
                new BigDecimal(fromUnitsAndRates[i]), new BigDecimal(fromUnitsAndRates[i + 1])));
      }
      return new BlockTable(season, meterSize, blocks);
    }
  }
}
