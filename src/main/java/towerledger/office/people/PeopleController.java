package towerledger.office.people;

import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import towerledger.account.AccountException;
import towerledger.account.Actor;
import towerledger.account.EmailAddress;
import towerledger.account.Invitation;
import towerledger.account.People;
import towerledger.account.Person;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.site.Assignments;
import towerledger.site.UnknownCodeException;

/** The people who may sign in: invited, changed, removed; the sites of technicians. */
@Controller
@RequestMapping("/people")
class PeopleController {

  private static final String ONE = "/{id:[0-9]{1,18}}";

  private final People people;
  private final Assignments assignments;
  private final PeoplePage page;

  PeopleController(People people, Assignments assignments, PeoplePage page) {
    this.people = people;
    this.assignments = assignments;
    this.page = page;
  }

  @GetMapping
  String list(
      @RequestParam(defaultValue = "") String search,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute("view", page.everybody(search, PeopleView.InvitationForm.EMPTY, null, text));
    return "office/people";
  }

  @PostMapping
  String invite(
      @RequestParam(defaultValue = "") String email,
      @RequestParam(defaultValue = "") String name,
      @RequestParam(defaultValue = "") String role,
      @RequestParam(defaultValue = "") String customer,
      @RequestParam(defaultValue = "false") boolean mayEnter,
      Viewer viewer,
      Actor actor,
      @ModelAttribute("figureText") FigureText text,
      RedirectAttributes flash,
      Model model) {
    var form = new PeopleView.InvitationForm(email, name, role, customer, mayEnter);
    try {
      People.Invited invited = people.invite(invitation(form), actor);
      if (invited.link() != null) {
        model.addAttribute(
            "view", page.one(viewer, people.get(invited.personId()), invited.link(), null, text));
        return "office/person";
      }
      flash.addFlashAttribute("notice", "people.done.invited");
      flash.addFlashAttribute("noticeArgs", new Object[] {email});
      return "redirect:/people/" + invited.personId();
    } catch (AccountException e) {
      model.addAttribute("view", page.everybody("", form, e, text));
      return "office/people";
    }
  }

  private static Invitation invitation(PeopleView.InvitationForm form) {
    Role role = role(form.role());
    return new Invitation(
        EmailAddress.of(form.email()),
        form.name(),
        role,
        role == Role.CUSTOMER && !form.customer().isBlank() ? form.customer().strip() : null,
        form.mayEnter());
  }

  private static Role role(String name) {
    for (Role role : Role.values()) {
      if (role.name().equals(name)) {
        return role;
      }
    }
    throw new AccountException("there is no role '%s'".formatted(name));
  }

  @GetMapping(ONE)
  String show(
      @PathVariable long id,
      Viewer viewer,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute("view", page.one(viewer, get(id), null, null, text));
    return "office/person";
  }

  @PostMapping(ONE)
  String change(
      @PathVariable long id,
      @RequestParam(defaultValue = "") String name,
      @RequestParam(defaultValue = "") String role,
      @RequestParam(defaultValue = "false") boolean mayEnter,
      Viewer viewer,
      Actor actor,
      @ModelAttribute("figureText") FigureText text,
      RedirectAttributes flash,
      Model model) {
    Person person = get(id);
    try {
      people.change(id, name, role.isEmpty() ? person.role() : role(role), mayEnter, actor);
      return done("changed", person, flash);
    } catch (AccountException e) {
      model.addAttribute("view", page.one(viewer, get(id), null, e.getMessage(), text));
      return "office/person";
    }
  }

  /** Does one thing to a person; shows their page with a link to hand over, or why not. */
  @PostMapping(ONE + "/{deed:invite-again|remove|restore|sign-out|assign|release}")
  String act(
      @PathVariable long id,
      @PathVariable String deed,
      @RequestParam(defaultValue = "") String site,
      Viewer viewer,
      Actor actor,
      @ModelAttribute("figureText") FigureText text,
      RedirectAttributes flash,
      Model model) {
    Person person = get(id);
    String link = null;
    try {
      switch (deed) {
        case "invite-again" -> link = people.inviteAgain(id, actor).link();
        case "remove" -> people.remove(id, actor);
        case "restore" -> people.restore(id, actor);
        case "sign-out" -> people.endSessions(id, actor);
        case "assign" -> assignments.assign(person, site.strip(), actor);
        default -> assignments.release(person, site, actor);
      }
    } catch (AccountException | UnknownCodeException e) {
      if (deed.equals("assign")) {
        model.addAttribute("typedSite", site);
      }
      model.addAttribute("view", page.one(viewer, get(id), null, e.getMessage(), text));
      return "office/person";
    }
    if (link != null) {
      model.addAttribute("view", page.one(viewer, get(id), link, null, text));
      return "office/person";
    }
    return done(deed, person, flash);
  }

  private static String done(String deed, Person person, RedirectAttributes flash) {
    flash.addFlashAttribute("notice", "people.done." + deed);
    flash.addFlashAttribute("noticeArgs", new Object[] {person.name()});
    return "redirect:/people/" + person.id();
  }

  private Person get(long id) {
    return people.find(id).orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
