/** Weather stations and their hours. */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "quantity",
      "bulk",
      "psychrometrics",
      "balance :: facts",
      "account",
      "job",
      "site"
    })
package towerledger.weather;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
