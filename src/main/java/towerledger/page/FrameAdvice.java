package towerledger.page;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.Optional;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.util.WebUtils;
import towerledger.account.CurrentViewer;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;

/** Gives every page its {@link Frame}, and controllers the reader's {@link FigureText}. */
@ControllerAdvice(annotations = Controller.class)
class FrameAdvice {

  static final String THEME_COOKIE = "theme";

  private final CurrentViewer currentViewer;
  private final PageLanguage language;

  FrameAdvice(CurrentViewer currentViewer, PageLanguage language) {
    this.currentViewer = currentViewer;
    this.language = language;
  }

  @ModelAttribute("frame")
  Frame frame(HttpServletRequest request) {
    Optional<Viewer> viewer = currentViewer.find();
    var theme = WebUtils.getCookie(request, THEME_COOKIE);
    return new Frame(
        viewer.map(Viewer::name).orElse(null),
        viewer.map(Viewer::units).orElse(UnitPreference.US),
        language.resolveLocale(request).getLanguage(),
        theme != null && Frame.THEMES.contains(theme.getValue()) ? theme.getValue() : "device",
        path(request),
        viewer.map(Section::listFor).orElse(List.of()));
  }

  @ModelAttribute("figureText")
  FigureText figureText(HttpServletRequest request) {
    return FigureText.of(
        currentViewer.find().map(Viewer::units).orElse(UnitPreference.US),
        language.resolveLocale(request).getLanguage());
  }

  private static String path(HttpServletRequest request) {
    String path = request.getRequestURI().substring(request.getContextPath().length());
    return request.getQueryString() == null ? path : path + "?" + request.getQueryString();
  }
}
