package towerledger.page;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.account.UnitPreference;

/**
 * What the layout around every page needs to know.
 *
 * @param readerName name of who is signed in; null when nobody is
 * @param units the reader's units
 * @param language the reader's language, as in {@link PageLanguage#CHOICES}
 * @param theme {@code device}, {@code light} or {@code dark}
 * @param path path and query of the page, to come back to
 * @param sections the menu
 */
public record Frame(
    @Nullable String readerName,
    UnitPreference units,
    String language,
    String theme,
    String path,
    List<Section> sections) {

  static final List<String> THEMES = List.of("device", "light", "dark");

  public boolean isSignedIn() {
    return readerName != null;
  }

  public List<UnitPreference> unitChoices() {
    return List.of(UnitPreference.values());
  }

  public List<String> languageChoices() {
    return PageLanguage.CHOICES;
  }

  public List<String> themeChoices() {
    return THEMES;
  }
}
