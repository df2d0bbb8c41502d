/** Rounds: what is due to be read, entering it at the tower, and the inspection list. */
@NullMarked
package towerledger.office.rounds;

import org.jspecify.annotations.NullMarked;
