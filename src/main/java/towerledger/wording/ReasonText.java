package towerledger.wording;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import towerledger.drawing.FigureText;
import towerledger.quantity.Volume;

/**
 * Says the reasons of a verdict in a reader's language and units. A revision keeps its reasons for
 * good as the balance wrote them, in English and SI; those sentences are known here and said anew.
 * A sentence that is not known is said as it was kept, never dropped.
 *
 * @param words texts in the reader's language
 * @param figures figures in the reader's units
 */
public record ReasonText(Words words, FigureText figures) {

  private static final String NUMBER = "(-?[\\d.,]+)";

  /** What would tell more, as the balance asks for it. */
  private static final Map<String, String> WANTS =
      Map.of(
          "a makeup meter, read at least monthly",
          "makeup-meter",
          "a correction of the makeup reading: digits, unit, or a swap that was not entered",
          "makeup-correction",
          "makeup meter readings that enclose the whole month",
          "makeup-readings",
          "weather hours of the station for the month",
          "weather",
          "a correction of the water sample that shows the basin weaker than the makeup: cycles below"
              + " 1 cannot be",
          "sample-correction",
          "conductivity of makeup and basin, at least once a month",
          "conductivity",
          "chiller electricity or ton-hours, by the month or finer",
          "heat",
          "target cycles or the controller's conductivity set-point",
          "target",
          "a blowdown meter: it tells bleed from overflow, leak and drift",
          "blowdown-meter");

  private static final Map<String, Pattern> REASONS = patterns();

  private static Map<String, Pattern> patterns() {
    Map<String, Pattern> patterns = new LinkedHashMap<>();
    String makeup = "makeup " + NUMBER + " % %s than the sound system would draw";
    patterns.put("makeup-more", Pattern.compile(makeup.replace("%s", "more")));
    patterns.put("makeup-less", Pattern.compile(makeup.replace("%s", "less")));
    String cycles = "cycles " + NUMBER + " against a target of " + NUMBER;
    patterns.put("cycles", Pattern.compile(cycles));
    patterns.put(
        "cycles-before-basin", Pattern.compile(cycles + ": the water is lost before the basin"));
    patterns.put("cycles-basin", Pattern.compile(cycles + ": concentrated water is lost"));
    patterns.put(
        "pressure-above",
        Pattern.compile(
            "pressure at the fill valve "
                + NUMBER
                + " % above the highest at which it closes; many sound sites exceed it too"));
    patterns.put(
        "pressure-below",
        Pattern.compile(
            "pressure at the fill valve " + NUMBER + " % below the highest at which it closes"));
    patterns.put(
        "bleed", Pattern.compile("metered bleed " + NUMBER + " L against " + NUMBER + " L needed"));
    return patterns;
  }

  /** Reasons for or against a cause, or facts that would tell more. */
  public List<String> say(List<String> kept) {
    return kept.stream().map(this::say).toList();
  }

  /** One of them. */
  public String say(String kept) {
    String want = WANTS.get(kept);
    if (want != null) {
      return words.of("want." + want);
    }
    return REASONS.entrySet().stream()
        .map(reason -> said(reason.getKey(), reason.getValue().matcher(kept)))
        .flatMap(Optional::stream)
        .findFirst()
        .orElse(kept);
  }

  private Optional<String> said(String key, Matcher found) {
    if (!found.matches()) {
      return Optional.empty();
    }
    Object[] gaps = new Object[found.groupCount()];
    for (int i = 0; i < gaps.length; i++) {
      double number = number(found.group(i + 1));
      gaps[i] =
          key.equals("bleed")
              ? figures.volume(Volume.ofLitres(number))
              : figures.decimals(number, key.startsWith("cycles") ? 1 : 0);
    }
    return Optional.of(words.of("reason." + key, gaps));
  }

  /** As Java's format wrote it: a comma where the machine's language has one. */
  private static double number(String text) {
    return Double.parseDouble(
        text.toLowerCase(Locale.ROOT).replace(',', '.').replaceAll("\\.(?=.*\\.)", ""));
  }
}
