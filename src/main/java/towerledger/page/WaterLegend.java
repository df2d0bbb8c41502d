package towerledger.page;

import java.util.ArrayList;
import java.util.List;
import towerledger.drawing.Medium;
import towerledger.drawing.Swatch;
import towerledger.drawing.WaterBar;
import towerledger.drawing.WaterPart;
import towerledger.wording.Words;

/** What the parts and marks of water bars mean, the same under every drawing. */
public final class WaterLegend {

  /** Less than this is never seen in a bar. */
  private static final double LEAST_LITRES = 1;

  private WaterLegend() {}

  /** The parts that occur in some bars, and the marks of a bar. */
  public static List<Plate.Legend> of(List<WaterBar> bars, Words words) {
    List<Plate.Legend> legend = new ArrayList<>();
    for (WaterPart part : WaterPart.values()) {
      if (bars.stream().anyMatch(bar -> occurs(bar, part))) {
        legend.add(legend(part, words));
      }
    }
    legend.add(new Plate.Legend(Swatch.stroke(Medium.PAGE), words.of("water.meter-stroke")));
    legend.add(new Plate.Legend(Swatch.whisker(Medium.PAGE), words.of("water.whisker")));
    return legend;
  }

  private static boolean occurs(WaterBar bar, WaterPart part) {
    return bar.part(part).filter(volume -> Math.abs(volume.litres()) >= LEAST_LITRES).isPresent();
  }

  private static Plate.Legend legend(WaterPart part, Words words) {
    return new Plate.Legend(Swatch.of(part, Medium.PAGE), words.of(part.messageKey()));
  }
}
