/**
 * The contractor's pages: month review, systems, findings, rounds, intake, rates, credits, people.
 */
@NullMarked
@ApplicationModule(
    allowedDependencies = {
      "quantity",
      "bulk",
      "query",
      "statistics",
      "psychrometrics",
      "thermal",
      "thermal :: water",
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
      "report :: print",
      "intake",
      "intake :: csv",
      "intake :: foreign",
      "page"
    })
package towerledger.office;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
