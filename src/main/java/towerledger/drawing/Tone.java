package towerledger.drawing;

import java.util.Locale;

/**
 * Every colour of the program, once: pages take it as a style-sheet variable, mail and print as the
 * colour for light ground.
 *
 * <p>One family of blue-greens says where the water went, from pale (evaporated) to deep (other
 * use); against dark ground the order of lightness turns round, so that evaporation always lies
 * nearest to the paper. One warm hue says lost, and nothing else is warm. Neighbours differ in
 * lightness too, so the scale survives grey print and colour-blind eyes; losses are hatched
 * besides.
 */
public enum Tone {
  GROUND("#f6f3ea", "#141c21"),
  FIELD("#fdfbf5", "#1b252b"),
  INK("#1c2b36", "#e6e1d4"),
  INK_SOFT("#4b5a64", "#aab3b4"),
  RULE("#c6beaa", "#41505a"),
  RULE_FAINT("#e2dccb", "#28343b"),
  LINK("#0d5366", "#8fcbd8"),
  MARGIN_RULE("#9dbcc4", "#35535d"),
  EVAPORATION("#b4d5db", "#2d5763"),
  DRIFT("#84b7c3", "#4a8090"),
  NEEDED_BLOWDOWN("#4d8ea5", "#76b0c2"),
  OTHER_USE("#2a5b76", "#b4dae3"),
  SET_ASIDE("#d3d6cf", "#3a464c"),
  LOSS("#a63f14", "#f09566"),
  LOSS_PALE("#efcdb8", "#5d321f"),
  LOSS_TEXT("#94360f", "#f5a980");

  private final String onLight;
  private final String onDark;

  Tone(String onLight, String onDark) {
    this.onLight = onLight;
    this.onDark = onDark;
  }

  /** Colour on light ground, {@code #rrggbb}; also the colour of mail and print. */
  public String onLight() {
    return onLight;
  }

  /** Colour on dark ground, {@code #rrggbb}. */
  public String onDark() {
    return onDark;
  }

  /** Name of the style-sheet variable without its dashes, for instance {@code needed-blowdown}. */
  public String cssName() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
