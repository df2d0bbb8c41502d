/**
 * Sewer credits for evaporated water: what is due, what was credited, and claims with their
 * working.
 */
@NullMarked
package towerledger.office.credits;

import org.jspecify.annotations.NullMarked;
