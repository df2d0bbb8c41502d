/** Who may sign in, the tokens of programs, and who changed what. */
@NullMarked
package towerledger.office.people;

import org.jspecify.annotations.NullMarked;
