/** What the meters said: register readings and interval volumes, as measured. */
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
package towerledger.meter;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
