package towerledger.drawing;

import java.util.function.Function;

/** The colours as a style sheet: a variable each, and the classes that drawings refer to. */
public final class StyleSheet {

  private StyleSheet() {}

  /**
   * Light by default, dark where the reader's device or the reader asks for it, light on paper
   * always.
   */
  public static String text() {
    String light = variables(Tone::onLight);
    String dark = variables(Tone::onDark);
    StringBuilder css = new StringBuilder(6000);
    css.append("/* Written by the program from its one list of colours. */\n");
    css.append(":root{color-scheme:light;").append(light).append("}\n");
    css.append("@media screen and (prefers-color-scheme:dark){:root:not([data-theme=light])")
        .append("{color-scheme:dark;")
        .append(dark)
        .append("}}\n");
    css.append("@media screen{:root[data-theme=dark]{color-scheme:dark;")
        .append(dark)
        .append("}}\n");
    for (Tone tone : Tone.values()) {
      String name = tone.cssName();
      css.append(
          ".fill-%s{fill:var(--%s)}.line-%s{stroke:var(--%s)}\n".formatted(name, name, name, name));
    }
    return css.toString();
  }

  private static String variables(Function<Tone, String> colour) {
    StringBuilder out = new StringBuilder();
    for (Tone tone : Tone.values()) {
      out.append("--").append(tone.cssName()).append(':').append(colour.apply(tone)).append(';');
    }
    return out.toString();
  }
}
