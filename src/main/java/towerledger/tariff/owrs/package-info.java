/**
 * Rates written in the Open Water Rate Specification: read, evaluated to a bill, and turned into a
 * schedule. What a document does not say plainly is reported, never guessed.
 */
@NullMarked
@NamedInterface("owrs")
package towerledger.tariff.owrs;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
