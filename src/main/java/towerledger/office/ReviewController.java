package towerledger.office;

import java.time.YearMonth;
import java.util.Optional;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.RequestHeader;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;

/** The month review, where the office begins. */
@Controller
class ReviewController {

  private final Ledger ledger;
  private final ReviewPage page;

  ReviewController(Ledger ledger, ReviewPage page) {
    this.ledger = ledger;
    this.page = page;
  }

  @GetMapping("/")
  String show(
      Viewer viewer,
      @ModelAttribute ReviewChoice choice,
      @ModelAttribute("figureText") FigureText text,
      @RequestHeader(name = "HX-Request", defaultValue = "false") boolean partOnly,
      Model model) {
    Optional<YearMonth> newest = ledger.findNewestMonth(viewer);
    if (newest.isEmpty()) {
      return "redirect:/guide";
    }
    YearMonth month = choice.chosenMonth().orElse(newest.get());
    model.addAttribute("view", page.compose(viewer, month, newest.get(), choice, text));
    return partOnly ? "office/review :: list" : "office/review";
  }
}
