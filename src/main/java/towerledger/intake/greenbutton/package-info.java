/** Interval volumes of water from Green Button (NAESB ESPI) feeds. */
@NullMarked
package towerledger.intake.greenbutton;

import org.jspecify.annotations.NullMarked;
