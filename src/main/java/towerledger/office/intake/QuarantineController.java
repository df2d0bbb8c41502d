package towerledger.office.intake;

import jakarta.servlet.http.HttpServletResponse;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
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
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.intake.DescribedRows;
import towerledger.intake.Quarantine;
import towerledger.intake.QuarantinedRow;
import towerledger.intake.UploadRefused;
import towerledger.office.ColumnText;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Mends rows that could not be taken, one at a time, and tries them again. */
@Controller
class QuarantineController {

  /** Fields of cells are named so, with their place, that no column can be taken for another. */
  private static final String CELL = "cell-";

  private final Quarantine quarantine;
  private final DescribedRows columns;
  private final MessageSource messages;

  QuarantineController(Quarantine quarantine, DescribedRows columns, MessageSource messages) {
    this.quarantine = quarantine;
    this.columns = columns;
    this.messages = messages;
  }

  @GetMapping("/intake/quarantine/{id}")
  String show(
      Viewer viewer,
      @PathVariable long id,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    QuarantinedRow row = find(viewer, id);
    model.addAttribute(
        "view", view(row, row.reason(), row.raw(), row.cells().orElse(List.of()), text));
    return "office/quarantine";
  }

  @PostMapping("/intake/quarantine/{id}")
  String mend(
      Viewer viewer,
      Actor actor,
      @PathVariable long id,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      RedirectAttributes flash,
      Model model) {
    QuarantinedRow row = find(viewer, id);
    String raw = typed.get("raw");
    Quarantine.Retry retry;
    try {
      retry =
          raw == null
              ? quarantine.mend(viewer, actor, row, cells(row, typed))
              : quarantine.mend(viewer, actor, row, raw);
    } catch (UploadRefused e) {
      retry = new Quarantine.Retry(false, String.valueOf(e.getMessage()));
    }
    if (retry.taken()) {
      flash.addFlashAttribute("notice", "quarantine.taken");
      return "redirect:/intake";
    }
    response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
    List<String> kept =
        raw == null
            ? row.columns().stream().map(column -> cells(row, typed).get(column)).toList()
            : List.of();
    model.addAttribute(
        "view", view(row, retry.reason(), raw == null ? row.raw() : raw, kept, text));
    return "office/quarantine";
  }

  @PostMapping("/intake/quarantine/{id}/drop")
  String drop(Viewer viewer, Actor actor, @PathVariable long id, RedirectAttributes flash) {
    quarantine.drop(actor, find(viewer, id));
    flash.addFlashAttribute("notice", "quarantine.dropped");
    return "redirect:/intake";
  }

  private QuarantinedRow find(Viewer viewer, long id) {
    return quarantine
        .find(viewer, id)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }

  private static Map<String, String> cells(QuarantinedRow row, Map<String, String> typed) {
    Map<String, String> cells = new HashMap<>();
    for (int i = 0; i < row.columns().size(); i++) {
      cells.put(row.columns().get(i), typed.getOrDefault(CELL + i, ""));
    }
    return cells;
  }

  private IntakeView.Mending view(
      QuarantinedRow row, String reason, String raw, List<String> values, FigureText text) {
    Words words = new Words(messages, text.locale());
    List<IntakeView.Cell> cells = new ArrayList<>();
    for (int i = 0; i < values.size(); i++) {
      String column = row.columns().get(i);
      String label = label(row.file(), column, words);
      cells.add(new IntakeView.Cell(label, label.equals(column) ? "" : column, values.get(i)));
    }
    return new IntakeView.Mending(
        row.id(),
        words.of("quarantine.about", row.file(), String.valueOf(row.line())),
        new ReasonText(words, text).say(reason),
        cells,
        raw,
        settled(row, words));
  }

  /** A column in words; as the file names it where the ledger does not know it. */
  private String label(String file, String name, Words words) {
    return columns.find(file, name).map(column -> ColumnText.label(column, words)).orElse(name);
  }

  private static @Nullable String settled(QuarantinedRow row, Words words) {
    return row.status() == QuarantinedRow.Status.WAITING
        ? null
        : words.of("quarantine.settled." + row.status(), row.settledBy().orElse(""));
  }
}
