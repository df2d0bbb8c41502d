package towerledger.office.people;

import jakarta.servlet.http.HttpServletResponse;
import java.time.Duration;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import towerledger.account.AccountException;
import towerledger.account.Actor;
import towerledger.account.TokenScope;
import towerledger.account.Tokens;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;

/** Tokens for programs: made, seen, revoked. */
@Controller
class TokensController {

  private final Tokens tokens;
  private final PeoplePage page;

  TokensController(Tokens tokens, PeoplePage page) {
    this.tokens = tokens;
    this.page = page;
  }

  @GetMapping("/people/tokens")
  String list(@ModelAttribute("figureText") FigureText text, Model model) {
    model.addAttribute("view", page.tokens(PeopleView.TokenForm.EMPTY, null, null, text));
    return "office/tokens";
  }

  /** Makes a token of the viewer's own; its secret is in this one answer and kept nowhere. */
  @PostMapping("/people/tokens")
  String make(
      @RequestParam(defaultValue = "") String name,
      @RequestParam(defaultValue = "READ") TokenScope scope,
      @RequestParam(defaultValue = "") String customer,
      @RequestParam(defaultValue = "365") int days,
      Viewer viewer,
      Actor actor,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      Model model) {
    response.setHeader(HttpHeaders.CACHE_CONTROL, CacheControl.noStore().getHeaderValue());
    try {
      String secret =
          tokens
              .issue(
                  viewer,
                  name,
                  scope,
                  customer.isBlank() ? null : customer.strip(),
                  Duration.ofDays(days),
                  actor)
              .secret();
      model.addAttribute("view", page.tokens(PeopleView.TokenForm.EMPTY, secret, null, text));
    } catch (AccountException e) {
      model.addAttribute(
          "view",
          page.tokens(new PeopleView.TokenForm(name, scope.name(), customer, days), null, e, text));
    }
    return "office/tokens";
  }

  @PostMapping("/people/tokens/{id:[0-9]{1,18}}/revoke")
  String revoke(@PathVariable long id, Actor actor, RedirectAttributes flash) {
    try {
      tokens.revoke(id, actor);
    } catch (AccountException e) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND, e.getMessage(), e);
    }
    flash.addFlashAttribute("notice", "tokens.revoked");
    return "redirect:/people/tokens";
  }
}
