/** Gathers the facts, runs the balance and keeps every revision of every month. */
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
      "tariff"
    })
package towerledger.ledger;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
