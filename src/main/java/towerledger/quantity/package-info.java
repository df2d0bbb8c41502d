/**
 * Quantities that cross module borders: volumes, flows, temperatures, pressures, heat,
 * conductivity, money, calendar months and half-open spans. All unit conversions of the program
 * live here and nowhere else. Physics is held in {@code double} SI, money in decimal.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package towerledger.quantity;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
