/**
 * The demo scenario: an invented contractor's book of customers, simulated with a fixed seed and
 * written as a bundle. Which systems carry a story is known here and nowhere else.
 */
@NullMarked
package towerledger.simulation.demo;

import org.jspecify.annotations.NullMarked;
