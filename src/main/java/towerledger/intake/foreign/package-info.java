/** Tables of others, with columns of their own, mapped onto files of the interchange format. */
@NullMarked
@NamedInterface("foreign")
package towerledger.intake.foreign;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
