package towerledger.page;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import towerledger.wording.Words;

/**
 * Names a browser as people do, from what it says of itself: enough to recognise one's own, no
 * proof of anything.
 */
final class BrowserName {

  /** Sought in this order: newer browsers name older ones too. */
  private static final Map<String, String> BROWSERS = new LinkedHashMap<>();

  private static final Map<String, String> SYSTEMS = new LinkedHashMap<>();

  static {
    BROWSERS.put("Firefox/", "Firefox");
    BROWSERS.put("Edg/", "Edge");
    BROWSERS.put("OPR/", "Opera");
    BROWSERS.put("Chromium/", "Chromium");
    BROWSERS.put("Chrome/", "Chrome");
    BROWSERS.put("Safari/", "Safari");
    SYSTEMS.put("Android", "Android");
    SYSTEMS.put("iPhone", "iPhone");
    SYSTEMS.put("iPad", "iPad");
    SYSTEMS.put("Windows", "Windows");
    SYSTEMS.put("Mac OS X", "Mac");
    SYSTEMS.put("Linux", "Linux");
  }

  private BrowserName() {}

  /**
   * For instance 'Firefox on Windows'.
   *
   * @param userAgent the header of that name; may be empty
   */
  static String of(String userAgent, Words words) {
    String browser = find(BROWSERS, userAgent).orElse(words.of("me.browser.other"));
    return find(SYSTEMS, userAgent)
        .map(system -> words.of("me.browser.on", browser, system))
        .orElse(browser);
  }

  private static Optional<String> find(Map<String, String> names, String userAgent) {
    return names.entrySet().stream()
        .filter(name -> userAgent.contains(name.getKey()))
        .map(Map.Entry::getValue)
        .findFirst();
  }
}
