/**
 * Figures as people read them: the water bar and the small charts as vectors, numbers with units
 * and intervals, and the one colour scale that pages, mail and print share.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity", "account", "balance", "ledger"})
package towerledger.drawing;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
