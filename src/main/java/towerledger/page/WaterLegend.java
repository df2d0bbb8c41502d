package towerledger.page;

import java.util.ArrayList;
import java.util.List;
import towerledger.drawing.Medium;
import towerledger.drawing.Swatch;
import towerledger.drawing.WaterPart;
import towerledger.wording.Words;

/** What the parts and marks of water bars mean, the same under every drawing. */
public final class WaterLegend {

  private WaterLegend() {}

  /** Every part and mark of a bar. */
  public static List<Plate.Legend> all(Words words) {
    List<Plate.Legend> legend = new ArrayList<>(parts(words));
    legend.add(new Plate.Legend(Swatch.stroke(Medium.PAGE), words.of("water.meter-stroke")));
    legend.add(new Plate.Legend(Swatch.whisker(Medium.PAGE), words.of("water.whisker")));
    return legend;
  }

  /** The parts alone. */
  public static List<Plate.Legend> parts(Words words) {
    List<Plate.Legend> legend = new ArrayList<>();
    for (WaterPart part : WaterPart.values()) {
      legend.add(new Plate.Legend(Swatch.of(part, Medium.PAGE), words.of(part.messageKey())));
    }
    return legend;
  }
}
