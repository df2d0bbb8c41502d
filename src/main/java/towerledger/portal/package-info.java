/** The customer's own pages. */
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
      "drawing",
      "wording",
      "ledger",
      "finding",
      "retrofit",
      "report",
      "intake",
      "page"
    })
package towerledger.portal;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
