/**
 * Sites, systems, towers, meters and their dated settings; the one place that knows whose system it
 * is.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity", "bulk", "query", "account", "job"})
package towerledger.site;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
