/**
 * Questions to the database, asked together where that saves trips: the one place where H2 and
 * PostgreSQL are asked differently. Knows nothing of water.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package towerledger.query;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
