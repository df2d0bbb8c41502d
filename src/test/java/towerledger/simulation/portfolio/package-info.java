/**
 * Books of thousands of towers for speed drills: a few simulated plants, scaled and renamed,
 * written as a bundle or straight into the tables.
 */
@NullMarked
package towerledger.simulation.portfolio;

import org.jspecify.annotations.NullMarked;
