package towerledger.page;

import java.util.Collection;
import org.jspecify.annotations.Nullable;

/**
 * Writes the options of a long select as HTML. A template asks its expressions anew for each of
 * some hundred options, which takes as long as all the rest of a page.
 */
public final class SelectOptions {

  private SelectOptions() {}

  /** A value to choose, with its name. */
  public record Choice(String value, String name) {}

  /**
   * The options.
   *
   * @param chosen value of the one that is chosen; null or an unknown value for none
   */
  public static String html(Collection<Choice> choices, @Nullable String chosen) {
    Html html = new Html(choices.size() * 64);
    for (Choice choice : choices) {
      html.markup("<option value=\"")
          .text(choice.value())
          .markup(choice.value().equals(chosen) ? "\" selected=\"selected\">" : "\">")
          .text(choice.name())
          .markup("</option>");
    }
    return html.toString();
  }
}
