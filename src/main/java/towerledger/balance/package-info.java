/**
 * A system's months reconciled: readings allocated to months, causes weighed, a verdict given, from
 * plain values to plain values.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity", "statistics", "psychrometrics", "thermal"})
package towerledger.balance;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
