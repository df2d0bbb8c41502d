/** Moist air after ASHRAE Fundamentals chapter 1. Plain Java. */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity"})
package towerledger.psychrometrics;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
