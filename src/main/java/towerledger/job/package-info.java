/**
 * Work that outlives a request: queued in the database, run by any node, with progress for whoever
 * waits.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity", "account"})
package towerledger.job;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
