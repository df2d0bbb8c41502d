/** Customers, people, their roles and tokens, and the record of who changed what. */
@NullMarked
@ApplicationModule(allowedDependencies = {"quantity"})
package towerledger.account;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
