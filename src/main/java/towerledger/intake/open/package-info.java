/** Open formats of others, read as rows of the interchange format. */
@NullMarked
package towerledger.intake.open;

import org.jspecify.annotations.NullMarked;
