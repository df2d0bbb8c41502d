package towerledger.page;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.drawing.FigureText;
import towerledger.quantity.VolumeUnit;

/**
 * One small chart with all that stands around it.
 *
 * @param id name within the page and of a saved picture
 * @param title what it shows
 * @param unit unit of its axis
 * @param drawing the drawing
 * @param legend what its colours and marks mean; empty where the title says all
 * @param summary what can be seen in it, in a sentence
 * @param table the figures behind it
 * @param csvPath where the figures are to be had as CSV; null where the table is all
 */
public record Plate(
    String id,
    String title,
    String unit,
    String drawing,
    List<Legend> legend,
    String summary,
    FigureTable table,
    @Nullable String csvPath) {

  public Plate {
    legend = List.copyOf(legend);
  }

  /** The table behind it as HTML; where the axis counts thousands its cells do not. */
  public String tableHtml() {
    return table.figures(
        unit.equals(FigureText.unitName(VolumeUnit.THOUSAND_US_GALLONS))
            ? title
            : title + ", " + unit);
  }

  /**
   * What a colour or mark means.
   *
   * @param swatch a small drawing of it
   * @param text its meaning
   */
  public record Legend(String swatch, String text) {}
}
