package towerledger.page;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.core.context.SecurityContextImpl;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import towerledger.account.Actor;
import towerledger.account.Devices;
import towerledger.account.OpenTo;
import towerledger.account.OwnPassword;
import towerledger.account.PasswordFault;
import towerledger.account.Role;
import towerledger.account.SignInAttempt;
import towerledger.account.SignedInSession;
import towerledger.account.TooManyAttempts;
import towerledger.account.Viewer;
import towerledger.account.ViewerAuthentication;
import towerledger.account.WrongPasswordException;

/** Choosing a password of one's own, after a one-time password or at any time. */
@Controller
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
class PasswordPage {

  private final OwnPassword passwords;
  private final Devices devices;
  private final SignedInSession session;

  PasswordPage(OwnPassword passwords, Devices devices, SignedInSession session) {
    this.passwords = passwords;
    this.devices = devices;
    this.session = session;
  }

  /**
   * What the page shows. What was typed is never sent back.
   *
   * @param email whose password it is
   * @param oneTime whether they signed in with a one-time password
   * @param wrongCurrent key of what is wrong with the current password; null for nothing
   * @param wrongNew key of what is wrong with the new one; null for nothing
   */
  record View(
      String email, boolean oneTime, @Nullable String wrongCurrent, @Nullable String wrongNew) {}

  @GetMapping("/password")
  String show(Viewer viewer, Model model) {
    return show(viewer, null, null, model);
  }

  @PostMapping("/password")
  String choose(
      @RequestParam(defaultValue = "") String current,
      @RequestParam(defaultValue = "") String password,
      @RequestParam(defaultValue = "") String again,
      Viewer viewer,
      Actor actor,
      HttpServletRequest request,
      HttpServletResponse response,
      RedirectAttributes flash,
      Model model) {
    String wrongCurrent = null;
    String wrongNew = null;
    try {
      Optional<PasswordFault> fault =
          passwords.change(viewer, current, password, again, SignInAttempt.of(request), actor);
      if (fault.isEmpty()) {
        stay(viewer, request, response);
        devices.remember(viewer.personId(), request, response);
        flash.addFlashAttribute("notice", "password.taken");
        return "redirect:" + Section.home(viewer);
      }
      wrongNew = "password.fault." + fault.get().name();
    } catch (WrongPasswordException e) {
      wrongCurrent = "password.wrong";
    } catch (TooManyAttempts e) {
      wrongCurrent = "signIn.wait";
    }
    response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
    return show(viewer, wrongCurrent, wrongNew, model);
  }

  /** All sessions ended with the old password; this one begins anew, under a new name. */
  private void stay(Viewer viewer, HttpServletRequest request, HttpServletResponse response) {
    request.getSession(true);
    request.changeSessionId();
    var signedIn = new SecurityContextImpl(new ViewerAuthentication(viewer));
    SecurityContextHolder.setContext(signedIn);
    session.saveContext(signedIn, request, response);
  }

  private static String show(
      Viewer viewer, @Nullable String wrongCurrent, @Nullable String wrongNew, Model model) {
    boolean oneTime =
        SecurityContextHolder.getContext().getAuthentication() instanceof ViewerAuthentication who
            && who.mustChangePassword();
    model.addAttribute("view", new View(viewer.email(), oneTime, wrongCurrent, wrongNew));
    return "password";
  }
}
