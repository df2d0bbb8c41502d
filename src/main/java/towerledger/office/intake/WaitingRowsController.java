package towerledger.office.intake;

import java.util.List;
import org.springframework.context.MessageSource;
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
import towerledger.account.Actor;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.intake.UploadRefused;
import towerledger.intake.WaitingRows;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** All rows that wait of one file of an import: looked through, tried again or dropped together. */
@Controller
@RequestMapping(WaitingRowsController.PAGE)
class WaitingRowsController {

  private static final int SHOWN = 100;
  static final String PAGE = "/intake/imports/{id}/waiting/{file}";

  private final WaitingRows waiting;
  private final MessageSource messages;

  WaitingRowsController(WaitingRows waiting, MessageSource messages) {
    this.waiting = waiting;
    this.messages = messages;
  }

  @GetMapping
  String show(
      @PathVariable String id,
      @PathVariable String file,
      @RequestParam(defaultValue = "0") int from,
      @RequestParam(defaultValue = "0") long after,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    long count = waiting.count(id, file);
    if (count == 0) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND);
    }
    Words words = new Words(messages, text.locale());
    ReasonText reasons = new ReasonText(words, text);
    int first = Math.max(0, from);
    List<IntakeView.Waiting> rows =
        waiting.rows(id, file, first, SHOWN).stream()
            .map(row -> IntakeView.Waiting.of(row, reasons))
            .toList();
    model.addAttribute(
        "view",
        new IntakeView.Sheet(
            id,
            file,
            words.of("waiting.lead", count),
            rows,
            Math.max(0, after),
            first == 0 ? null : page(id, file, Math.max(0, first - SHOWN)),
            first + rows.size() < count && !rows.isEmpty() ? page(id, file, first + SHOWN) : null));
    return "office/waiting";
  }

  private static String page(String id, String file, int from) {
    return "/intake/imports/%s/waiting/%s?from=%d".formatted(id, file, from);
  }

  @PostMapping("/retry")
  String retry(
      Viewer viewer,
      Actor actor,
      @PathVariable String id,
      @PathVariable String file,
      @RequestParam(defaultValue = "0") long after,
      RedirectAttributes flash) {
    WaitingRows.Outcome outcome;
    try {
      outcome = waiting.tryAgain(viewer, actor, id, file, after);
    } catch (UploadRefused e) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND, e.getMessage(), e);
    }
    flash.addFlashAttribute("notice", outcome.more() ? "waiting.tried.more" : "waiting.tried");
    flash.addFlashAttribute("noticeArgs", new Object[] {outcome.tried(), outcome.taken()});
    if (waiting.count(id, file) == 0) {
      return "redirect:/intake";
    }
    flash.addAttribute("id", id);
    flash.addAttribute("file", file);
    return "redirect:" + PAGE + (outcome.more() ? "?after=" + outcome.last() : "");
  }

  @PostMapping("/drop")
  String drop(
      Actor actor, @PathVariable String id, @PathVariable String file, RedirectAttributes flash) {
    int dropped = waiting.dropAll(actor, id, file);
    flash.addFlashAttribute("notice", "waiting.dropped");
    flash.addFlashAttribute("noticeArgs", new Object[] {dropped});
    return "redirect:/intake";
  }
}
