package towerledger.page;

import java.util.Collection;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.HtmlUtils;

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
    StringBuilder html = new StringBuilder(choices.size() * 64);
    for (Choice choice : choices) {
      html.append("<option value=\"")
          .append(HtmlUtils.htmlEscape(choice.value(), "UTF-8"))
          .append(choice.value().equals(chosen) ? "\" selected=\"selected\">" : "\">")
          .append(HtmlUtils.htmlEscape(choice.name(), "UTF-8"))
          .append("</option>");
    }
    return html.toString();
  }
}
