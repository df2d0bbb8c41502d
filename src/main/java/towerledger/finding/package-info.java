/** Follow-up of a verdict: from open to verified saving. */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "quantity",
      "bulk",
      "query",
      "statistics",
      "psychrometrics",
      "thermal",
      "balance",
      "balance :: facts",
      "account",
      "job",
      "site",
      "weather",
      "meter",
      "logsheet",
      "tariff",
      "ledger"
    })
package towerledger.finding;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
