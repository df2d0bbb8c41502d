/** The demo scenario in one click. */
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
      "report",
      "intake",
      "page",
      "office"
    })
package towerledger.demo;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
