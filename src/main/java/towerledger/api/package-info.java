/** The REST contract for scripts and other programs. */
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
      "tariff :: owrs",
      "drawing",
      "wording",
      "ledger",
      "finding",
      "retrofit",
      "report",
      "intake",
      "intake :: foreign",
      "page"
    })
package towerledger.api;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
