/** Daily copies of the embedded database, kept in rotation; PostgreSQL has its own tools. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package towerledger.backup;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
