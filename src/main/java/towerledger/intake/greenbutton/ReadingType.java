package towerledger.intake.greenbutton;

import java.util.Map;
import java.util.Optional;
import towerledger.quantity.VolumeUnit;

/**
 * What the values of a meter reading mean: litres for each unit of value, or why they are no water
 * volumes.
 *
 * <p>Source: NAESB ESPI schema (REQ.21), enumerations CommodityKind, UnitSymbolKind,
 * AccumulationKind, FlowDirectionKind, DataQualifierKind; {@code kind} and titles are not looked
 * at, because feeds of water in the field carry those of energy.
 *
 * @param litresPerValue litres for each unit of value; for flows, litres per hour
 * @param isFlow whether the value is a mean flow over the interval rather than a volume
 * @param refusal why the values cannot be taken; empty when they can
 * @param intervalSeconds text of the length that holds where a reading gives none; may be empty
 * @param quality text of the quality that holds where a reading gives none; may be empty
 */
record ReadingType(
    double litresPerValue,
    boolean isFlow,
    Optional<String> refusal,
    String intervalSeconds,
    String quality) {

  private static final double LITRES_PER_CUBIC_METRE = VolumeUnit.CUBIC_METRE.litres();
  private static final int SECONDS_PER_HOUR = 3600;
  private static final int MOST_POWER_OF_TEN = 9;

  /** What the enumerations say where nothing is said. */
  private static final String NOT_APPLICABLE = "0";

  /** Units of volume in litres. */
  private static final Map<String, Double> VOLUMES =
      Map.of(
          "42", LITRES_PER_CUBIC_METRE,
          "119", VolumeUnit.CUBIC_FOOT.litres(),
          "128", VolumeUnit.US_GALLON.litres(),
          "130", VolumeUnit.IMPERIAL_GALLON.litres(),
          "134", 1.0);

  /** Units of flow in litres per hour. */
  private static final Map<String, Double> FLOWS =
      Map.of(
          "129",
          VolumeUnit.US_GALLON.litres(),
          "125",
          LITRES_PER_CUBIC_METRE,
          "137",
          1.0,
          "82",
          1.0 * SECONDS_PER_HOUR,
          "45",
          LITRES_PER_CUBIC_METRE * SECONDS_PER_HOUR,
          "122",
          VolumeUnit.CUBIC_FOOT.litres(),
          "131",
          VolumeUnit.IMPERIAL_GALLON.litres());

  /** Values that cannot be taken, and why. */
  static ReadingType refused(String why) {
    return new ReadingType(0, false, Optional.of(why), "", "");
  }

  /**
   * The meaning of the elements of a reading type.
   *
   * @param serviceKind kind of the usage point's service; empty text where there is none
   * @param elements texts of the reading type's elements by name
   */
  static ReadingType of(String serviceKind, Map<String, String> elements) {
    String told = elements.getOrDefault("commodity", "");
    String commodity = told.equals(NOT_APPLICABLE) ? "" : told;
    if (!serviceKind.isEmpty() && !serviceKind.equals("2")) {
      return refused(
          "the service is of kind %s, not 2 (water); only water is taken".formatted(serviceKind));
    }
    if (!commodity.isEmpty() && !commodity.equals("9") && !commodity.equals("14")) {
      return refused(
          "the commodity is %s; only 9 (potable) and 14 (reclaimed water) are taken"
              .formatted(commodity));
    }
    if (serviceKind.isEmpty() && commodity.isEmpty()) {
      return refused("neither service kind nor commodity says that this is water");
    }
    String direction = elements.getOrDefault("flowDirection", "1");
    if (!direction.equals("1") && !direction.equals("0")) {
      return refused("the flow direction is %s, not 1 (forward)".formatted(direction));
    }
    String qualifier = elements.getOrDefault("dataQualifier", NOT_APPLICABLE);
    if (qualifier.equals("8") || qualifier.equals("9")) {
      return refused(
          "the values are the greatest or least of their interval (data qualifier %s), which tells no volume"
              .formatted(qualifier));
    }
    String accumulation = elements.getOrDefault("accumulationBehaviour", "4");
    String unit = elements.getOrDefault("uom", "");
    boolean flow = FLOWS.containsKey(unit);
    if (!flow && !accumulation.equals("4") && !accumulation.equals("0")) {
      return refused(
          "the values accumulate in way %s; only 4 (volume of the interval) is taken. Give register values as register_readings.csv"
              .formatted(accumulation));
    }
    Double litres = flow ? FLOWS.get(unit) : VOLUMES.get(unit);
    if (litres == null) {
      return refused(
          "the unit of measure is '%s'; known are 42, 119, 128, 130, 134 (volumes) and 45, 82, 122, 125, 129, 131, 137 (flows)"
              .formatted(unit));
    }
    try {
      int power = Integer.parseInt(elements.getOrDefault("powerOfTenMultiplier", "0"));
      if (Math.abs(power) > MOST_POWER_OF_TEN) {
        return refused("a power of ten of %d is beyond any water meter".formatted(power));
      }
      return new ReadingType(
          litres * Math.pow(10, power),
          flow,
          Optional.empty(),
          elements.getOrDefault("intervalLength", ""),
          elements.getOrDefault("defaultQuality", ""));
    } catch (NumberFormatException e) {
      return refused(
          "the power of ten '%s' is not a whole number"
              .formatted(elements.get("powerOfTenMultiplier")));
    }
  }

  /** Litres of a value over a number of minutes. */
  double litres(double value, int minutes) {
    return isFlow ? value * litresPerValue * minutes / 60 : value * litresPerValue;
  }
}
