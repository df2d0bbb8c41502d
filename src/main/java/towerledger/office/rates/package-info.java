/** Pages of rate schedules, and bills tried out on them. */
@NullMarked
package towerledger.office.rates;

import org.jspecify.annotations.NullMarked;
