package towerledger.page;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Duration;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseCookie;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import towerledger.account.CurrentViewer;
import towerledger.account.OpenTo;
import towerledger.account.ReaderPreferences;
import towerledger.account.Role;
import towerledger.account.UnitPreference;

/**
 * Keeps how somebody wants to read: units and language with the person, the paper on the device.
 */
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
@Controller
class PreferencesController {

  private final CurrentViewer currentViewer;
  private final ReaderPreferences preferences;

  PreferencesController(CurrentViewer currentViewer, ReaderPreferences preferences) {
    this.currentViewer = currentViewer;
    this.preferences = preferences;
  }

  @PostMapping("/preferences")
  String keep(
      @RequestParam UnitPreference units,
      @RequestParam String language,
      @RequestParam String theme,
      @RequestParam(defaultValue = "/") String back,
      HttpServletRequest request,
      HttpServletResponse response) {
    if (Frame.THEMES.contains(theme)) {
      keepOnDevice(FrameAdvice.THEME_COOKIE, theme, request, response);
    }
    if (PageLanguage.CHOICES.contains(language)) {
      keepOnDevice(PageLanguage.COOKIE, language, request, response);
      currentViewer.find().ifPresent(viewer -> preferences.keep(viewer, units, language));
    }
    return "redirect:" + (SignInSecurity.isOwnPath(back) ? back : "/");
  }

  private static void keepOnDevice(
      String name, String value, HttpServletRequest request, HttpServletResponse response) {
    response.addHeader(
        HttpHeaders.SET_COOKIE,
        ResponseCookie.from(name, value)
            .path("/")
            .maxAge(Duration.ofDays(400))
            .httpOnly(true)
            .secure(request.isSecure())
            .sameSite("Lax")
            .build()
            .toString());
  }
}
