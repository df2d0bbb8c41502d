/** Pages on which files are handed in, and rows that could not be taken are mended. */
@NullMarked
package towerledger.office.intake;

import org.jspecify.annotations.NullMarked;
