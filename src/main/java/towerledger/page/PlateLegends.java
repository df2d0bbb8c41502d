package towerledger.page;

import java.util.List;
import towerledger.drawing.Medium;
import towerledger.drawing.Swatch;
import towerledger.drawing.Tone;
import towerledger.drawing.WaterPart;
import towerledger.wording.Words;

/** Legends of charts that several pages draw alike. */
public final class PlateLegends {

  private PlateLegends() {}

  /** Of lost money as bars with their intervals. */
  public static List<Plate.Legend> loss(Words words) {
    return List.of(
        new Plate.Legend(
            Swatch.of(WaterPart.EXCESS_LOSS, Medium.PAGE), words.of("plate.money.value")),
        new Plate.Legend(Swatch.interval(Medium.PAGE), words.of("plate.interval")));
  }

  /** Of lost money as it adds up. */
  public static List<Plate.Legend> runningLoss(Words words) {
    return List.of(
        new Plate.Legend(
            Swatch.line(Tone.LOSS, false, Medium.PAGE), words.of("plate.money-running.value")),
        new Plate.Legend(Swatch.band(Tone.SET_ASIDE, Medium.PAGE), words.of("plate.interval")));
  }
}
