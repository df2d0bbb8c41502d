package towerledger.page;

import jakarta.servlet.http.HttpSession;
import java.time.ZoneOffset;
import java.util.List;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.People;
import towerledger.account.Role;
import towerledger.account.Sessions;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.wording.Words;

/** A person's own login: where they are signed in, and signing out of there. */
@Controller
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
class OwnLoginController {

  private final Sessions sessions;
  private final People people;
  private final MessageSource messages;

  OwnLoginController(Sessions sessions, People people, MessageSource messages) {
    this.sessions = sessions;
    this.people = people;
    this.messages = messages;
  }

  /**
   * What the page shows.
   *
   * @param name of the person
   * @param email sign-in name
   * @param sessions open sessions, the last used first
   */
  record View(String name, String email, List<Place> sessions) {}

  /** One browser signed in; as {@link Sessions.SignedInAt}, in words. */
  record Place(
      String key, String browser, String from, String began, String lastUsed, boolean current) {}

  @GetMapping("/me")
  String show(
      Viewer viewer,
      HttpSession session,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Words words = new Words(messages, text.locale());
    model.addAttribute(
        "view",
        new View(
            viewer.name(),
            viewer.email(),
            sessions.list(viewer.email(), session.getId()).stream()
                .map(place -> place(place, text, words))
                .toList()));
    return "me";
  }

  private static Place place(Sessions.SignedInAt at, FigureText text, Words words) {
    return new Place(
        at.key(),
        BrowserName.of(at.browser(), words),
        AddressText.of(at.from(), words),
        text.moment(at.began(), ZoneOffset.UTC),
        text.moment(at.lastUsed(), ZoneOffset.UTC),
        at.current());
  }

  @PostMapping("/me/sessions/{key}/end")
  String end(@PathVariable String key, Viewer viewer, RedirectAttributes flash) {
    sessions.end(viewer.email(), key);
    flash.addFlashAttribute("notice", "me.ended");
    return "redirect:/me";
  }

  @PostMapping("/me/sessions/end-all")
  String endAll(Viewer viewer, Actor actor) {
    people.endSessions(viewer.personId(), actor);
    return "redirect:/sign-in?signed-out";
  }
}
