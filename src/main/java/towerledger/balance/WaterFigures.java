package towerledger.balance;

import java.util.Optional;
import java.util.OptionalDouble;
import towerledger.quantity.Volume;

/**
 * The water of one month. A figure that the evidence does not support is empty, never zero.
 *
 * <p>Identity, where makeup is known and rounding aside: makeup = evaporation + drift + needed
 * blowdown + excess loss + fresh loss + other use + storage change + meter correction + residual.
 * Unaccounted, blowdown and gross loss overlap these parts and never stack with them.
 *
 * @param makeup metered makeup
 * @param expectedMakeup makeup of the same system in sound state under the settings in force
 * @param unaccounted makeup − expected makeup; negative when too little came
 * @param evaporation evaporated water
 * @param drift droplets carried out by the air
 * @param neededBlowdown bleed that the target cycles ask for
 * @param excessLoss concentrated water lost beyond that, as extra water drawn
 * @param freshLoss makeup water lost before it reached the basin
 * @param otherUse water that other users drew after the makeup meter
 * @param storageChange water added to the basin: fill after a drain positive
 * @param meterCorrection what the makeup meter shows too much; negative when it under-registers
 * @param residual what is left
 * @param blowdown bleed as metered, else as the chemistry implies
 * @param grossLoss what leaks, including what only displaces bleed
 * @param loss extra water that a fault drew from the supply; empty where nothing can be said
 * @param cycles cycles of concentration as measured
 * @param targetCycles cycles aimed at
 */
public record WaterFigures(
    Optional<VolumeEstimate> makeup,
    Optional<VolumeEstimate> expectedMakeup,
    Optional<VolumeEstimate> unaccounted,
    Optional<VolumeEstimate> evaporation,
    Optional<Volume> drift,
    Optional<Volume> neededBlowdown,
    Optional<Volume> excessLoss,
    Optional<Volume> freshLoss,
    Optional<Volume> otherUse,
    Optional<Volume> storageChange,
    Optional<Volume> meterCorrection,
    Optional<Volume> residual,
    Optional<Volume> blowdown,
    Optional<Volume> grossLoss,
    Optional<VolumeEstimate> loss,
    OptionalDouble cycles,
    OptionalDouble targetCycles) {}
