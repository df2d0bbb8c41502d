package towerledger.page;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import towerledger.account.AccountException;
import towerledger.account.Link;
import towerledger.account.OpenTo;
import towerledger.account.OwnPassword;
import towerledger.account.PasswordFault;
import towerledger.account.Role;
import towerledger.account.TooManyAttempts;

/**
 * Choosing a password by a link from a letter, and asking for such a letter. Looking at a link does
 * not use it up: mail scanners look.
 */
@Controller
@OpenTo(
    value = {Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER},
    need = OpenTo.Need.LOOK)
class PasswordLinkPage {

  private final OwnPassword passwords;

  PasswordLinkPage(OwnPassword passwords) {
    this.passwords = passwords;
  }

  /**
   * A form for a new password. What was typed is never sent back.
   *
   * @param action path the form goes to
   * @param email whose password it is
   * @param invitation whether it is their first
   * @param wrongNew key of what was wrong with the last try, or null
   */
  record View(String action, String email, boolean invitation, @Nullable String wrongNew) {}

  @GetMapping({"/invitation/{secret}", "/password/reset/{secret}"})
  String show(
      @PathVariable String secret,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model) {
    return passwords
        .findLink(secret)
        .map(link -> show(link, request, response, null, model))
        .orElseGet(() -> over(response));
  }

  @PostMapping({"/invitation/{secret}", "/password/reset/{secret}"})
  String choose(
      @PathVariable String secret,
      @RequestParam(defaultValue = "") String password,
      @RequestParam(defaultValue = "") String again,
      HttpServletRequest request,
      HttpServletResponse response,
      Model model) {
    Optional<Link> link = passwords.findLink(secret);
    if (link.isEmpty()) {
      return over(response);
    }
    String wrong;
    try {
      Optional<PasswordFault> fault =
          passwords.chooseByLink(secret, password, again, String.valueOf(request.getRemoteAddr()));
      if (fault.isEmpty()) {
        return "redirect:/sign-in?chosen";
      }
      wrong = "password.fault." + fault.get().name();
    } catch (TooManyAttempts e) {
      wrong = "signIn.wait";
    } catch (AccountException usedMeanwhile) {
      return over(response);
    }
    response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
    return show(link.get(), request, response, wrong, model);
  }

  private static String show(
      Link link,
      HttpServletRequest request,
      HttpServletResponse response,
      @Nullable String wrongNew,
      Model model) {
    withoutReferrer(response);
    model.addAttribute(
        "view",
        new View(
            request.getServletPath(),
            link.email(),
            link.purpose() == Link.Purpose.INVITATION,
            wrongNew));
    return "password-link";
  }

  /** Unknown, used and expired links look the same. */
  private static String over(HttpServletResponse response) {
    withoutReferrer(response);
    response.setStatus(HttpStatus.NOT_FOUND.value());
    return "password-over";
  }

  /** The secret is in the address: not even this program's own pages are told it. */
  private static void withoutReferrer(HttpServletResponse response) {
    response.setHeader("Referrer-Policy", "no-referrer");
  }

  @GetMapping("/password/forgotten")
  String askForLink(@RequestParam(required = false) @Nullable String sent, Model model) {
    model.addAttribute("sent", sent != null);
    return "password-forgotten";
  }

  @PostMapping("/password/forgotten")
  String sendLink(@RequestParam(defaultValue = "") String email, HttpServletRequest request) {
    passwords.forgot(email, String.valueOf(request.getRemoteAddr()));
    return "redirect:/password/forgotten?sent";
  }
}
