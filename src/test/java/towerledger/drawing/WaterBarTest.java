package towerledger.drawing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.StringReader;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import towerledger.quantity.Volume;

class WaterBarTest {

  private static final WaterBar LEAKING =
      new WaterBar(
          new EnumMap<>(
              Map.of(
                  WaterPart.EVAPORATION, Volume.ofLitres(600),
                  WaterPart.NEEDED_BLOWDOWN, Volume.ofLitres(200),
                  WaterPart.FRESH_LOSS, Volume.ofLitres(220),
                  WaterPart.RESIDUAL, Volume.ofLitres(-20))),
          Optional.of(Volume.ofLitres(1000)),
          Optional.of(
              new WaterBar.Interval(
                  Volume.ofLitres(800), Volume.ofLitres(740), Volume.ofLitres(860))));

  @Test
  void stacksTheKnownPartsToTheMeteredMakeup() throws Exception {
    Document drawing =
        parse(LEAKING.draw(WaterBar.Style.BROAD, Volume.ofLitres(2000), "October", "", Map.of()));

    NodeList fields = drawing.getElementsByTagName("rect");
    double positive = 0;
    double negative = 0;
    for (int i = 0; i < fields.getLength(); i++) {
      Element field = (Element) fields.item(i);
      double width = Double.parseDouble(field.getAttribute("width"));
      if (field.getAttribute("class").equals("fill-ground")) {
        negative += width;
      } else {
        positive += width;
      }
    }
    // 718 points carry 2000 L to the right of zero and 20 L to its left
    double perLitre = 718 / 2020.0;
    assertThat(positive - negative).isCloseTo(1000 * perLitre, within(0.3));
  }

  @Test
  void drawsEqualWaterEquallyLongOnACommonScale() throws Exception {
    WaterBar small =
        new WaterBar(
            Map.of(WaterPart.EVAPORATION, Volume.ofLitres(100)),
            Optional.of(Volume.ofLitres(100)),
            Optional.empty());
    WaterBar large =
        new WaterBar(
            Map.of(WaterPart.EVAPORATION, Volume.ofLitres(400)),
            Optional.of(Volume.ofLitres(400)),
            Optional.empty());

    double ratio = firstWidth(large) / firstWidth(small);

    assertThat(ratio).isCloseTo(4, within(0.02));
  }

  @Test
  void tellsScreenReadersWhatItShowsAndEscapesNames() throws Exception {
    String svg =
        LEAKING.draw(
            WaterBar.Style.LIST,
            Volume.ofLitres(2000),
            "Tower <3> & \"north\"",
            "600 L evaporated",
            Map.of());

    Element root = parse(svg).getDocumentElement();
    assertThat(root.getAttribute("role")).isEqualTo("img");
    assertThat(root.getAttribute("aria-label"))
        .isEqualTo("Tower <3> & \"north\". 600 L evaporated");
  }

  @Test
  void needsNoInlineStyleOnPagesAndNoStyleSheetOnPaper() {
    String page = LEAKING.draw(WaterBar.Style.LIST, Volume.ofLitres(2000), "October", "", Map.of());
    String paper =
        LEAKING.draw(WaterBar.Style.PAPER, Volume.ofLitres(2000), "October", "", Map.of());

    assertThat(page).doesNotContain("style=").doesNotContain("#");
    assertThat(paper).doesNotContain("style=").doesNotContain("class=\"fill");
    assertThat(paper).contains(Tone.LOSS.onLight());
  }

  private static double firstWidth(WaterBar bar) throws Exception {
    Document drawing =
        parse(bar.draw(WaterBar.Style.LIST, Volume.ofLitres(500), "bar", "", Map.of()));
    Matcher width =
        Pattern.compile("[0-9.]+")
            .matcher(
                ((Element) drawing.getElementsByTagName("rect").item(0)).getAttribute("width"));
    assertThat(width.find()).isTrue();
    return Double.parseDouble(width.group());
  }

  private static Document parse(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }
}
