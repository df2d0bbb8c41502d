package towerledger.thermal;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Locale;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;
import towerledger.thermal.fill.FillLaw;

/**
 * What the model needs to know of a tower. Built from a nameplate elsewhere, which also records
 * what had to be assumed.
 *
 * @param kind how water and air meet
 * @param flowArrangement counter-flow or cross-flow (see there for what is approximated)
 * @param cells number of equal cells, 1 … 200
 * @param staging what the cells do at part load
 * @param fanControl how the fans hold the set-point
 * @param fillExponent n in Me = a (L/G)^−n
 * @param point the design point, all cells together
 */
public record TowerDesign(
    TowerKind kind,
    FlowArrangement flowArrangement,
    int cells,
    CellStaging staging,
    FanControl fanControl,
    double fillExponent,
    DesignPoint point) {

  /** Version of the evaporation model; a change of results gives it a new name. */
  public static final String MODEL_VERSION = "tower-1";

  public TowerDesign {
    OutOfRangeException.requireWithin(
        "number of cells", cells, 1, 200, "", "give the cells that share this basin");
    OutOfRangeException.requireWithin(
        "fill exponent", fillExponent, 0.2, 1.2, "", "published fills lie between 0.35 and 1.1");
  }

  /** An open counter-flow tower of one cell with variable-speed fans and a usual fill. */
  public static TowerDesign open(DesignPoint point) {
    return new TowerDesign(
        TowerKind.OPEN,
        FlowArrangement.COUNTERFLOW,
        1,
        CellStaging.EVERY_CELL,
        FanControl.VARIABLE_SPEED,
        FillLaw.USUAL_EXPONENT,
        point);
  }

  public TowerDesign withKind(TowerKind newKind) {
    return new TowerDesign(
        newKind, flowArrangement, cells, staging, fanControl, fillExponent, point);
  }

  public TowerDesign withFlowArrangement(FlowArrangement newArrangement) {
    return new TowerDesign(kind, newArrangement, cells, staging, fanControl, fillExponent, point);
  }

  public TowerDesign withFanControl(FanControl newControl) {
    return new TowerDesign(kind, flowArrangement, cells, staging, newControl, fillExponent, point);
  }

  public TowerDesign withCells(int newCells, CellStaging newStaging) {
    return new TowerDesign(
        kind, flowArrangement, newCells, newStaging, fanControl, fillExponent, point);
  }

  public TowerDesign withFillExponent(double newExponent) {
    return new TowerDesign(kind, flowArrangement, cells, staging, fanControl, newExponent, point);
  }

  /**
   * Relative standard uncertainty of modelled evaporation at a known heat load and set-point, from
   * the tower model alone. Open towers: 3 % for the model (measured towers agree within 5 %),
   * joined by 2.3 % (4 %/√3) where the air flow is not known. Coil towers: a judgement, no source.
   */
  public double evaporationUncertainty() {
    return switch (kind) {
      case OPEN -> point.airFlowKnown() ? 0.03 : 0.04;
      case CLOSED_CIRCUIT, EVAPORATIVE_CONDENSER -> 0.08;
      case HYBRID -> 0.15;
    };
  }

  /**
   * A short text that is equal for designs that behave alike and differs otherwise, to keep what
   * was computed once. It names the version of the model too.
   */
  public String fingerprint() {
    MoistAir air = point.inletAir();
    String text =
        String.format(
            Locale.ROOT,
            "%s|%s|%s|%d|%s|%s|%s|%s|%s|%s|%s|%s|%s|%s|%s",
            MODEL_VERSION,
            kind,
            flowArrangement,
            cells,
            staging,
            fanControl,
            fillExponent,
            point.waterFlowKgS(),
            point.hotWaterC(),
            point.coldWaterC(),
            air.dryBulbC(),
            air.humidityRatio(),
            air.pressurePa(),
            point.dryAirFlowKgS(),
            point.airFlowKnown());
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return MODEL_VERSION + "-" + HexFormat.of().formatHex(digest, 0, 12);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
