package towerledger.balance.facts;

import java.util.Arrays;
import java.util.Optional;

/** The project's own inspection list: what somebody standing at the tower can see or hear. */
public enum InspectionFinding {
  /** Water runs from the fill valve though the basin stands at its level. */
  FILL_VALVE_PASSING("fill-valve-passing"),
  /** The fill valve stays open, the float hangs or the sensor reads low. */
  FILL_VALVE_OPEN("fill-valve-open"),
  /** Nothing comes from the fill valve though the basin is low. */
  FILL_VALVE_CLOSED("fill-valve-closed"),
  /** The fill valve closes tight. */
  FILL_VALVE_TIGHT("fill-valve-tight"),
  /** Water runs over or into the overflow while the pumps run. */
  OVERFLOW_RUNNING("overflow-running"),
  /** Water ran over when the pumps stopped. */
  OVERFLOW_AT_STOP("overflow-at-stop"),
  /** The overflow is dry. */
  OVERFLOW_DRY("overflow-dry"),
  /** The water level stands above its mark. */
  LEVEL_HIGH("level-high"),
  /** The water level stands at its mark. */
  LEVEL_NORMAL("level-normal"),
  /** The bleed runs though it ought to be shut. */
  BLEED_RUNNING("bleed-running"),
  /** The bleed opens and shuts as it ought to. */
  BLEED_NORMAL("bleed-normal"),
  /** Basin or pipework of the loop drips or is wet below. */
  BASIN_WET("basin-wet"),
  /** Basin and pipework are dry outside. */
  BASIN_DRY("basin-dry"),
  /** The makeup line leaks, or wet ground above it. */
  MAKEUP_LINE_WET("makeup-line-wet"),
  /** Drift eliminators broken, missing or lifted; drizzle around the tower. */
  ELIMINATORS_DAMAGED("eliminators-damaged"),
  /** Drift eliminators whole and in place. */
  ELIMINATORS_SOUND("eliminators-sound"),
  /** A hose or another user is tied in after the makeup meter. */
  HOSE_CONNECTED("hose-connected"),
  /** White scale on fill or basin. */
  SCALE_VISIBLE("scale-visible"),
  /** A meter stands still or runs backwards. */
  METER_STUCK("meter-stuck");

  private final String code;

  InspectionFinding(String code) {
    this.code = code;
  }

  /** The code used in files. */
  public String code() {
    return code;
  }

  /** The finding of a code, or empty when the list has no such code. */
  public static Optional<InspectionFinding> find(String code) {
    return Arrays.stream(values()).filter(f -> f.code.equals(code)).findFirst();
  }
}
