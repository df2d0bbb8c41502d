package towerledger.page;

import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import towerledger.account.OpenTo;
import towerledger.account.Role;

/** The form that asks who you are. */
@Controller
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
class SignInPage {

  /**
   * What the page shows.
   *
   * @param notice key of the text above the form, or null for none
   * @param to path to go on to afterwards, or null for the start page
   */
  record View(@Nullable String notice, @Nullable String to) {}

  @GetMapping("/sign-in")
  String show(
      @RequestParam(required = false) @Nullable String wrong,
      @RequestParam(required = false) @Nullable String wait,
      @RequestParam(name = "signed-out", required = false) @Nullable String signedOut,
      @RequestParam(required = false) @Nullable String chosen,
      @RequestParam(required = false) @Nullable String to,
      Model model) {
    String notice =
        wrong != null
            ? "signIn.wrong"
            : wait != null
                ? "signIn.wait"
                : signedOut != null ? "signIn.signedOut" : chosen != null ? "signIn.chosen" : null;
    model.addAttribute("view", new View(notice, SignInSecurity.isOwnPath(to) ? to : null));
    return "sign-in";
  }
}
