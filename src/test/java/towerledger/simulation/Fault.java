package towerledger.simulation;

/**
 * One planted fault.
 *
 * <p>Size by cause: litres an hour for leaks, leak-by (at 60 psi), high level, other use and a
 * stuck bleed; litres a stop for overflow on shutdown; part of the bleed's aim given away for low
 * cycles; multiple of sound drift; the factor on what a wrong meter or probe shows, or on the heat
 * evidence.
 *
 * @param fromHour first hour of the grid it acts in
 * @param toHour first hour it no longer acts in
 */
public record Fault(PlantedCause cause, int fromHour, int toHour, double size) {

  boolean acts(int hour) {
    return hour >= fromHour && hour < toHour;
  }
}
