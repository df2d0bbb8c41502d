/**
 * Tables as text: records cut from a stream, cells read as codes, numbers in either unit system and
 * moments, with words on what is wrong.
 */
@NullMarked
@NamedInterface("csv")
package towerledger.intake.csv;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
