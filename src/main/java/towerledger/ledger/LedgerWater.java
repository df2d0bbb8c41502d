package towerledger.ledger;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import towerledger.balance.VolumeEstimate;
import towerledger.balance.WaterFigures;
import towerledger.quantity.Volume;

/**
 * The water of a ledger row, in litres; null where the evidence does not support a figure. Names
 * and the stacking identity are those of {@link WaterFigures}.
 */
public record LedgerWater(
    @Nullable Double makeup,
    @Nullable Double expectedMakeup,
    @Nullable Double expectedLow,
    @Nullable Double expectedHigh,
    @Nullable Double unaccounted,
    @Nullable Double unaccountedLow,
    @Nullable Double unaccountedHigh,
    @Nullable Double evaporation,
    @Nullable Double drift,
    @Nullable Double neededBlowdown,
    @Nullable Double excessLoss,
    @Nullable Double freshLoss,
    @Nullable Double otherUse,
    @Nullable Double storageChange,
    @Nullable Double meterCorrection,
    @Nullable Double residual,
    @Nullable Double blowdown,
    @Nullable Double grossLoss,
    @Nullable Double loss,
    @Nullable Double lossLow,
    @Nullable Double lossHigh,
    @Nullable Double cycles,
    @Nullable Double targetCycles) {

  /** Names of {@link #volumes()} in files, without the unit that ends them. */
  public static final List<String> VOLUME_NAMES =
      List.of(
          "makeup",
          "expected_makeup",
          "expected_low",
          "expected_high",
          "unaccounted",
          "unaccounted_low",
          "unaccounted_high",
          "evaporation",
          "drift",
          "needed_blowdown",
          "excess_loss",
          "fresh_loss",
          "other_use",
          "storage_change",
          "meter_correction",
          "residual",
          "blowdown",
          "gross_loss",
          "loss",
          "loss_low",
          "loss_high");

  /** Every volume in the order of this record, cycles left out; null where nothing is known. */
  public List<@Nullable Double> volumes() {
    return Arrays.asList(
        makeup,
        expectedMakeup,
        expectedLow,
        expectedHigh,
        unaccounted,
        unaccountedLow,
        unaccountedHigh,
        evaporation,
        drift,
        neededBlowdown,
        excessLoss,
        freshLoss,
        otherUse,
        storageChange,
        meterCorrection,
        residual,
        blowdown,
        grossLoss,
        loss,
        lossLow,
        lossHigh);
  }

  static LedgerWater of(WaterFigures water) {
    return new LedgerWater(
        value(water.makeup()),
        value(water.expectedMakeup()),
        low(water.expectedMakeup()),
        high(water.expectedMakeup()),
        value(water.unaccounted()),
        low(water.unaccounted()),
        high(water.unaccounted()),
        value(water.evaporation()),
        litres(water.drift()),
        litres(water.neededBlowdown()),
        litres(water.excessLoss()),
        litres(water.freshLoss()),
        litres(water.otherUse()),
        litres(water.storageChange()),
        litres(water.meterCorrection()),
        litres(water.residual()),
        litres(water.blowdown()),
        litres(water.grossLoss()),
        value(water.loss()),
        low(water.loss()),
        high(water.loss()),
        number(water.cycles()),
        number(water.targetCycles()));
  }

  private static @Nullable Double value(Optional<VolumeEstimate> estimate) {
    return estimate.isEmpty() ? null : estimate.get().value().litres();
  }

  private static @Nullable Double low(Optional<VolumeEstimate> estimate) {
    return estimate.isEmpty() ? null : estimate.get().low().litres();
  }

  private static @Nullable Double high(Optional<VolumeEstimate> estimate) {
    return estimate.isEmpty() ? null : estimate.get().high().litres();
  }

  private static @Nullable Double litres(Optional<Volume> volume) {
    return volume.isEmpty() ? null : volume.get().litres();
  }

  private static @Nullable Double number(OptionalDouble number) {
    return number.isEmpty() ? null : number.getAsDouble();
  }
}
