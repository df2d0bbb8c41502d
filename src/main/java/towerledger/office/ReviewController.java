package towerledger.office;

import java.time.YearMonth;
import java.util.Optional;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import towerledger.account.Actor;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.ledger.MonthEnds;

/** The month review, where the office begins. */
@Controller
class ReviewController {

  private final MonthEnds ends;
  private final ReviewPage page;

  ReviewController(MonthEnds ends, ReviewPage page) {
    this.ends = ends;
    this.page = page;
  }

  @GetMapping("/")
  String show(
      Viewer viewer,
      @ModelAttribute ReviewChoice choice,
      @ModelAttribute("figureText") FigureText text,
      @RequestHeader(name = "HX-Request", defaultValue = "false") boolean partOnly,
      Model model) {
    Optional<ReviewView> view = page.find(viewer, choice, partOnly, text);
    if (view.isEmpty()) {
      return "redirect:/guide";
    }
    model.addAttribute("view", view.get());
    return partOnly ? "office/review :: list" : "office/review";
  }

  /** Closes a month before its ten days are over. */
  @PostMapping("/months/{month}/close")
  String close(@PathVariable YearMonth month, Actor actor, RedirectAttributes flash) {
    MonthEnds.Closing closing = ends.close(month, actor);
    flash.addFlashAttribute(
        "notice", closing.waiting() == 0 ? "review.closed" : "review.closed.waiting");
    flash.addFlashAttribute("noticeArgs", new Object[] {closing.closed(), closing.waiting()});
    return "redirect:/?month=" + month;
  }
}
