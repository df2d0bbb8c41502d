/**
 * Quick answers at a desk or on a roof: evaporation, cycles and bleed, flow through valve or hole.
 */
@NullMarked
package towerledger.office.calculator;

import org.jspecify.annotations.NullMarked;
