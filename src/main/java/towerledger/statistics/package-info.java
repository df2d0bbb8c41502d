/**
 * Statistics of the trade: uncertainty budgets, regression, data reconciliation, likelihood ratios,
 * change points. Plain Java.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity"})
package towerledger.statistics;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
