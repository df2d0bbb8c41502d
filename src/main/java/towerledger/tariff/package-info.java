/**
 * Rate schedules, bills and the sewer credit for evaporated water. Volumes come in, money goes out.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity", "bulk", "account", "job", "site"})
package towerledger.tariff;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
