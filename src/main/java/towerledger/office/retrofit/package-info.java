/** The page of a retrofit's business case. */
@NullMarked
package towerledger.office.retrofit;

import org.jspecify.annotations.NullMarked;
