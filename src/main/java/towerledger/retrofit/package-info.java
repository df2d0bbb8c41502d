/** The business case for better level control, regulators, submeters and cycles. */
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
      "finding"
    })
package towerledger.retrofit;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
