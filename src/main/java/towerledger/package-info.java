@NullMarked
package towerledger;

import org.jspecify.annotations.NullMarked;
