/**
 * Water and dissolved solids of one basin: cycles, bleed, drift, what a loss costs under each way
 * of controlling the bleed, and what passes through valves and holes.
 */
@NullMarked
@NamedInterface("water")
package towerledger.thermal.water;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
