/**
 * What all pages share: layout, units, numbers as people read them, the water bar, error pages,
 * sign-in.
 */
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
      "intake"
    })
package towerledger.page;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
