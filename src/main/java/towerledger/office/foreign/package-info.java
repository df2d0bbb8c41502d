/** Pages on which tables with columns of their own are mapped, looked at and taken. */
@NullMarked
package towerledger.office.foreign;

import org.jspecify.annotations.NullMarked;
