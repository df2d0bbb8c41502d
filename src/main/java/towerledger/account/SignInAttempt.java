package towerledger.account;

import jakarta.servlet.http.Cookie;
import jakarta.servlet.http.HttpServletRequest;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Where an attempt to sign in comes from.
 *
 * @param address network address
 * @param device secret of the browser's device cookie, or null if it has none
 */
public record SignInAttempt(String address, @Nullable String device) {

  /** Name of the cookie that tells a browser which has signed in before. */
  static final String DEVICE_COOKIE = "TOWERLEDGER_DEVICE";

  /** The attempt a request makes. */
  public static SignInAttempt of(HttpServletRequest request) {
    Cookie[] cookies = request.getCookies();
    String device =
        cookies == null
            ? null
            : Arrays.stream(cookies)
                .filter(cookie -> DEVICE_COOKIE.equals(cookie.getName()))
                .map(Cookie::getValue)
                .filter(value -> value.length() <= 100)
                .findFirst()
                .orElse(null);
    return new SignInAttempt(String.valueOf(request.getRemoteAddr()), device);
  }
}
