/**
 * The wet tower: heat load, evaporation, water balance, flow through valves and holes. Plain Java.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity", "psychrometrics", "statistics"})
package towerledger.thermal;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
