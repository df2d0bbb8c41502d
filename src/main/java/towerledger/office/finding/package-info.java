/** Pages of findings: the list and one finding. */
@NullMarked
package towerledger.office.finding;

import org.jspecify.annotations.NullMarked;
