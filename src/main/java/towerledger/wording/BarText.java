package towerledger.wording;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import towerledger.drawing.FigureText;
import towerledger.drawing.SystemMonths;
import towerledger.drawing.WaterBar;
import towerledger.drawing.WaterPart;
import towerledger.ledger.LedgerEntry;
import towerledger.quantity.Volume;

/** Draws a month's water bar with its figures in words for those who cannot see it. */
public final class BarText {

  private BarText() {}

  /** The bar of a row. */
  public static String draw(
      LedgerEntry entry, WaterBar.Style style, Volume fullScale, Words words, FigureText text) {
    WaterBar bar = SystemMonths.bar(entry.water());
    Map<WaterPart, String> hints = new EnumMap<>(WaterPart.class);
    List<String> said = new ArrayList<>();
    for (WaterPart part : WaterPart.values()) {
      bar.part(part)
          .ifPresent(
              volume -> {
                String figure =
                    words.of(
                        "bar.part", words.of(part.messageKey()), text.part(volume, bar.reach()));
                hints.put(part, figure);
                said.add(figure);
              });
    }
    return bar.draw(
        style,
        fullScale,
        words.of("bar.title", entry.of().systemName(), text.month(entry.month())),
        said.isEmpty() ? words.of("bar.unknown") : String.join("; ", said),
        hints);
  }
}
