/**
 * What the ledger says, in a reader's language: verdicts, money, cautions and the water bar in
 * words, the same on pages, in the mail and in print.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity", "account", "balance", "ledger", "drawing"})
package towerledger.wording;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
