package towerledger.page;

import java.math.BigDecimal;
import towerledger.drawing.FigureText;
import towerledger.site.MeterDetails;
import towerledger.wording.Words;

/** Says what one count of a register stands for, as its dial does: gallons, or × 100 gallons. */
public final class RegisterUnit {

  private RegisterUnit() {}

  /** The unit of a meter's counts, with what they are multiplied by where that is not one. */
  public static String of(MeterDetails meter, Words words, FigureText text) {
    String unit = words.of("unit." + meter.unit());
    BigDecimal multiplier = meter.multiplier();
    return multiplier.compareTo(BigDecimal.ONE) == 0
        ? unit
        : "×\u00a0" + text.tick(multiplier.doubleValue()) + "\u00a0" + unit;
  }
}
