/**
 * Rows that arrive in bulk, put into their tables by key: the one place where H2 and PostgreSQL are
 * loaded differently. Knows nothing of water.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package towerledger.bulk;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
