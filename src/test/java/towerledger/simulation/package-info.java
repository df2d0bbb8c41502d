/**
 * A plant to test against: weather, heat, tower, basin and water meters by the hour, with faults
 * and the nuisances of real life, written apart from the ledger's own physics so that agreement
 * means something.
 */
@NullMarked
package towerledger.simulation;

import org.jspecify.annotations.NullMarked;
