/** Who gets the monthly report, what it says before it is sent, and what became of it. */
@NullMarked
package towerledger.office.report;

import org.jspecify.annotations.NullMarked;
