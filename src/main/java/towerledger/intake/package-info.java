/** Bundles and open formats in and out; what cannot be taken waits in quarantine. */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "quantity",
      "bulk",
      "statistics",
      "psychrometrics",
      "thermal",
      "balance",
      "account",
      "job",
      "site",
      "weather",
      "meter",
      "logsheet",
      "tariff",
      "drawing",
      "wording",
      "ledger",
      "finding",
      "retrofit",
      "report"
    })
package towerledger.intake;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
