package towerledger.page;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.LocaleResolver;
import org.springframework.web.util.WebUtils;
import towerledger.account.CurrentViewer;
import towerledger.account.Viewer;

/**
 * The language of a page: the signed-in person's own; before signing in what was chosen on this
 * device, else what the browser asks for, else English.
 */
@Component("localeResolver")
public class PageLanguage implements LocaleResolver {

  /** The languages the texts exist in. */
  static final List<String> CHOICES = List.of("en", "es");

  static final String COOKIE = "language";

  private final CurrentViewer currentViewer;

  PageLanguage(CurrentViewer currentViewer) {
    this.currentViewer = currentViewer;
  }

  @Override
  public Locale resolveLocale(HttpServletRequest request) {
    String chosen = currentViewer.find().map(Viewer::language).orElse(null);
    if (chosen == null) {
      var cookie = WebUtils.getCookie(request, COOKIE);
      chosen = cookie == null ? null : cookie.getValue();
    }
    if (chosen != null && CHOICES.contains(chosen)) {
      return regional(chosen);
    }
    return Collections.list(request.getLocales()).stream()
        .map(Locale::getLanguage)
        .filter(CHOICES::contains)
        .findFirst()
        .map(PageLanguage::regional)
        .orElse(Locale.US);
  }

  /** The language of the texts for what a browser asks for first; English where there is none. */
  static Locale of(Locale asked) {
    return CHOICES.contains(asked.getLanguage()) ? regional(asked.getLanguage()) : Locale.US;
  }

  private static Locale regional(String language) {
    return new Locale.Builder().setLanguage(language).setRegion("US").build();
  }

  @Override
  public void setLocale(
      HttpServletRequest request, @Nullable HttpServletResponse response, @Nullable Locale locale) {
    throw new UnsupportedOperationException(
        "the language is chosen on the reader's sheet; see PreferencesController");
  }
}
