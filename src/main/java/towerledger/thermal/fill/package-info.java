/**
 * Heat and mass transfer between falling water and rising air, one fill at a time: the Poppe
 * method, Merkel's and the effectiveness-NTU method beside it, and the power law that carries a
 * fill from its design point to any other.
 */
@NullMarked
package towerledger.thermal.fill;

import org.jspecify.annotations.NullMarked;
