/** What people wrote down at the tower: water samples, pressures, heat loads, visits. */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "quantity",
      "bulk",
      "query",
      "balance :: facts",
      "account",
      "job",
      "site"
    })
package towerledger.logsheet;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
