/**
 * Fleets of simulated plants with planted faults, judged by the ledger's reconciliation and scored
 * against the truth, beside two spreadsheets' rules.
 */
@NullMarked
package towerledger.simulation.fleet;

import org.jspecify.annotations.NullMarked;
