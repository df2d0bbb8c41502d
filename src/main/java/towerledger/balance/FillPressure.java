package towerledger.balance;

import java.time.Instant;
import java.util.OptionalDouble;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.SupplyPressure;
import towerledger.balance.facts.SystemFacts;

/**
 * The pressure at the fill valve against the highest at which it closes, as known by an instant.
 */
final class FillPressure {

  private FillPressure() {}

  /**
   * Latest pressure at the valve over the valve's limit.
   *
   * @return NaN where the pressure or the limit is not known
   */
  static double overLimit(SystemFacts facts, Instant by) {
    double limit = Double.NaN;
    OptionalDouble regulated = OptionalDouble.empty();
    for (OperatingSettings settings : facts.settings()) {
      if (!settings.effectiveFrom().isAfter(by)) {
        limit = settings.fillValveMaxPascals().orElse(Double.NaN);
        regulated = settings.regulatorSetPascals();
      }
    }
    double pressure = Double.NaN;
    for (SupplyPressure reading : facts.pressures()) {
      if (!reading.takenAt().isAfter(by)) {
        if (reading.valveInletPascals().isPresent()) {
          pressure = reading.valveInletPascals().getAsDouble();
        } else if (reading.supplyPascals().isPresent()) {
          pressure = reading.supplyPascals().getAsDouble();
          // A regulator that nobody measured behind is taken to hold what it is set to.
          pressure = Math.min(pressure, regulated.orElse(pressure));
        }
      }
    }
    return pressure / limit;
  }
}
