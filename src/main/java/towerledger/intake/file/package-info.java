/** The files of the interchange format: what each may hold and where its rows go. */
@NullMarked
package towerledger.intake.file;

import org.jspecify.annotations.NullMarked;
