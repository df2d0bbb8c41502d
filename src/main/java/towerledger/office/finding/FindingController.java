package towerledger.office.finding;

import jakarta.servlet.http.HttpServletResponse;
import java.time.DateTimeException;
import java.time.LocalDate;
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
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.finding.Finding;
import towerledger.finding.Findings;
import towerledger.finding.StaleFindingException;

/** Findings: who is to look at what, what was done, and what it saved. */
@Controller
class FindingController {

  private final Findings findings;
  private final FindingPage page;

  FindingController(Findings findings, FindingPage page) {
    this.findings = findings;
    this.page = page;
  }

  @OpenTo({Role.OFFICE, Role.TECHNICIAN})
  @GetMapping("/findings")
  String list(
      Viewer viewer,
      @RequestParam(defaultValue = "waiting") String show,
      @RequestParam(defaultValue = "0") int offset,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute("view", page.listing(viewer, show, offset, text));
    return "office/findings";
  }

  @OpenTo({Role.OFFICE, Role.TECHNICIAN})
  @GetMapping("/findings/{id}")
  String show(
      Viewer viewer,
      @PathVariable long id,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute(
        "view", page.page(viewer, find(viewer, id), FindingViews.Typed.nothing(), text));
    return "office/finding";
  }

  @PostMapping("/findings/{id}/assign")
  String assign(
      Viewer viewer,
      Actor actor,
      @PathVariable long id,
      @RequestParam long version,
      @RequestParam(defaultValue = "0") long person,
      @RequestParam(defaultValue = "") String note,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      RedirectAttributes flash,
      Model model) {
    Finding finding = find(viewer, id);
    try {
      findings.assign(actor, finding, version, person, note);
    } catch (IllegalArgumentException | StaleFindingException e) {
      return refuse(viewer, id, "assign", e, note, "", text, response, model);
    }
    return done(id, "finding.done.assigned", flash);
  }

  @OpenTo(
      value = {Role.OFFICE, Role.TECHNICIAN},
      need = OpenTo.Need.ENTER)
  @PostMapping("/findings/{id}/note")
  String note(
      Viewer viewer,
      Actor actor,
      @PathVariable long id,
      @RequestParam(defaultValue = "") String note,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      RedirectAttributes flash,
      Model model) {
    Finding finding = find(viewer, id);
    try {
      findings.note(actor, finding, note);
    } catch (IllegalArgumentException e) {
      return refuse(viewer, id, "note", e, note, "", text, response, model);
    }
    return done(id, "finding.done.noted", flash);
  }

  @OpenTo(
      value = {Role.OFFICE, Role.TECHNICIAN},
      need = OpenTo.Need.ENTER)
  @PostMapping("/findings/{id}/work")
  String work(
      Viewer viewer,
      Actor actor,
      @PathVariable long id,
      @RequestParam long version,
      @RequestParam(defaultValue = "") String day,
      @RequestParam(defaultValue = "") String note,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      RedirectAttributes flash,
      Model model) {
    Finding finding = find(viewer, id);
    try {
      findings.markWorked(actor, finding, version, day(day), note);
    } catch (IllegalArgumentException | StaleFindingException e) {
      return refuse(viewer, id, "work", e, note, day, text, response, model);
    }
    return done(id, "finding.done.worked", flash);
  }

  private static LocalDate day(String typed) {
    try {
      return LocalDate.parse(typed.strip());
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "'%s' is no day; write it as 2026-10-31".formatted(typed), e);
    }
  }

  private static String done(long id, String notice, RedirectAttributes flash) {
    flash.addFlashAttribute("notice", notice);
    return "redirect:/findings/" + id;
  }

  private String refuse(
      Viewer viewer,
      long id,
      String form,
      RuntimeException why,
      String note,
      String day,
      FigureText text,
      HttpServletResponse response,
      Model model) {
    response.setStatus(
        (why instanceof StaleFindingException
                ? HttpStatus.CONFLICT
                : HttpStatus.UNPROCESSABLE_CONTENT)
            .value());
    model.addAttribute(
        "view",
        page.page(
            viewer,
            find(viewer, id),
            new FindingViews.Typed(form, String.valueOf(why.getMessage()), note, day),
            text));
    return "office/finding";
  }

  private Finding find(Viewer viewer, long id) {
    return findings
        .find(viewer, id)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
