package towerledger.site;

import jakarta.persistence.Embeddable;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * What the customer told of a tower. Not yet physics: {@code ledger} turns it into the tower the
 * model needs and records every assumption it made. Null means not known.
 *
 * @param name what people call it
 * @param cells number of cells, 1 or more
 * @param flowArrangement counterflow or crossflow
 * @param nominalKw rated heat rejection; a nominal ton is 15,000 Btu/h
 * @param designWaterFlowLS circulation at design, L/s
 * @param designHotWaterC water on the tower at design, °C
 * @param designColdWaterC water off the tower at design, °C
 * @param designWetBulbC entering wet bulb at design, °C
 * @param designDryBulbC entering dry bulb at design, °C
 * @param designAirFlowM3S air flow at the design inlet state, all cells, m³/s
 * @param fanMotorKw motor rating, all cells
 * @param fanControl how the fan follows the load
 * @param basinVolumeL litres in the basin
 * @param hasBasinHeater whether the basin is heated against frost
 * @param startedOn first day of service
 */
@Embeddable
public record Nameplate(
    String name,
    @Nullable Integer cells,
    @Nullable FlowArrangement flowArrangement,
    Double nominalKw,
    @Nullable Double designWaterFlowLS,
    @Nullable Double designHotWaterC,
    @Nullable Double designColdWaterC,
    @Nullable Double designWetBulbC,
    @Nullable Double designDryBulbC,
    @Nullable Double designAirFlowM3S,
    @Nullable Double fanMotorKw,
    @Nullable FanControl fanControl,
    @Nullable Double basinVolumeL,
    @Nullable Boolean hasBasinHeater,
    @Nullable LocalDate startedOn) {

  /**
   * This with every known value of a newer row put over it; not known never wipes out known.
   *
   * @throws IllegalArgumentException when the merged design point is impossible
   */
  public Nameplate updatedBy(Nameplate newer) {
    return new Nameplate(
        newer.name,
        Known.or(newer.cells, cells),
        Known.or(newer.flowArrangement, flowArrangement),
        newer.nominalKw,
        Known.or(newer.designWaterFlowLS, designWaterFlowLS),
        Known.or(newer.designHotWaterC, designHotWaterC),
        Known.or(newer.designColdWaterC, designColdWaterC),
        Known.or(newer.designWetBulbC, designWetBulbC),
        Known.or(newer.designDryBulbC, designDryBulbC),
        Known.or(newer.designAirFlowM3S, designAirFlowM3S),
        Known.or(newer.fanMotorKw, fanMotorKw),
        Known.or(newer.fanControl, fanControl),
        Known.or(newer.basinVolumeL, basinVolumeL),
        Known.or(newer.hasBasinHeater, hasBasinHeater),
        Known.or(newer.startedOn, startedOn));
  }

  public Nameplate {
    requirePositive("cells", cells);
    requirePositive("nominal capacity", nominalKw);
    requirePositive("design water flow", designWaterFlowLS);
    requirePositive("design air flow", designAirFlowM3S);
    requirePositive("fan motor power", fanMotorKw);
    requirePositive("basin volume", basinVolumeL);
    requireAbove("design hot water", designHotWaterC, "design cold water", designColdWaterC);
    requireAbove("design cold water", designColdWaterC, "design wet bulb", designWetBulbC);
    if (designDryBulbC != null && designWetBulbC != null && designDryBulbC < designWetBulbC) {
      throw new IllegalArgumentException(
          "design dry bulb of %.1f °C is below the design wet bulb of %.1f °C; check the two"
              .formatted(designDryBulbC, designWetBulbC));
    }
  }

  private static void requirePositive(String what, @Nullable Number value) {
    if (value != null && !(value.doubleValue() > 0)) {
      throw new IllegalArgumentException(
          "%s is %s; give a number above 0 or leave it empty".formatted(what, value));
    }
  }

  private static void requireAbove(
      String what, @Nullable Double upper, String other, @Nullable Double lower) {
    if (upper != null && lower != null && !(upper > lower)) {
      throw new IllegalArgumentException(
          "%s of %.1f °C is not above %s of %.1f °C; check the two"
              .formatted(what, upper, other, lower));
    }
  }
}
