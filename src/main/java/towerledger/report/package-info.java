/** The monthly report: written, approved, sent, and never in two versions. */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "quantity",
      "bulk",
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
      "drawing",
      "wording",
      "ledger",
      "finding",
      "retrofit"
    })
package towerledger.report;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
