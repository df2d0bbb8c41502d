package towerledger.office.describe;

import jakarta.servlet.http.HttpServletResponse;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
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
import towerledger.wording.Words;

/**
 * Forms for what the ledger knows of customers, towers and rates: added from nothing, or edited. A
 * form carries what was known when it was opened; where somebody changed a field meanwhile, it says
 * so beside what was typed and takes the form the second time.
 */
@Controller
class DescribeController {

  private final DescribePage page;
  private final DescribedRows rows;
  private final MessageSource messages;

  DescribeController(DescribePage page, DescribedRows rows, MessageSource messages) {
    this.page = page;
    this.rows = rows;
    this.messages = messages;
  }

  /** A form; with {@code edit} for a thing that is there, else filled with the parameters given. */
  @GetMapping("/describe/{sheet}")
  String show(
      Viewer viewer,
      @PathVariable("sheet") String name,
      @RequestParam Map<String, String> given,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Sheet sheet = sheet(name);
    boolean editing = given.containsKey("edit");
    Map<String, String> known =
        editing
            ? page.find(viewer, sheet, key(sheet, given))
                .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND))
            : Map.of();
    model.addAttribute(
        "view",
        page.compose(viewer, sheet, editing, editing ? known : given, known, "", Map.of(), text));
    return "office/describe";
  }

  @PostMapping("/describe/{sheet}")
  String take(
      Viewer viewer,
      Actor actor,
      @PathVariable("sheet") String name,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      RedirectAttributes flash,
      Model model) {
    Sheet sheet = sheet(name);
    Words words = new Words(messages, text.locale());
    boolean editing = typed.containsKey("edit");
    Map<String, String> key = key(sheet, typed);
    Optional<Map<String, String>> found = page.find(viewer, sheet, key);
    if (editing && found.isEmpty()) {
      throw new ResponseStatusException(HttpStatus.NOT_FOUND);
    }
    Map<String, String> known = found.orElse(Map.of());
    if (!editing && found.isPresent()) {
      response.setStatus(HttpStatus.CONFLICT.value());
      model.addAttribute(
          "view",
          page.compose(
              viewer,
              sheet,
              false,
              typed,
              Map.of(),
              words.of("describe.exists", String.join(" ", key.values())),
              Map.of(),
              text));
      return "office/describe";
    }
    Map<String, String> changed = editing ? changed(typed, known) : Map.of();
    String trouble = "";
    if (changed.isEmpty()) {
      Map<String, String> cells = page.cells(viewer, sheet, typed, editing);
      trouble =
          (editing
                  ? rows.edit(viewer, actor, sheet.file(), key, cells)
                  : rows.take(viewer, actor, sheet.file(), cells))
              .orElse("");
      if (trouble.isEmpty()) {
        return taken(sheet, typed, editing, flash);
      }
    }
    response.setStatus(
        (changed.isEmpty() ? HttpStatus.UNPROCESSABLE_CONTENT : HttpStatus.CONFLICT).value());
    model.addAttribute(
        "view", page.compose(viewer, sheet, editing, typed, known, trouble, changed, text));
    return "office/describe";
  }

  /** Fields that somebody else changed since the form was opened, with what they say now. */
  private static Map<String, String> changed(Map<String, String> typed, Map<String, String> known) {
    Map<String, String> changed = new LinkedHashMap<>();
    typed.forEach(
        (name, was) -> {
          if (name.startsWith("was-")) {
            String column = name.substring("was-".length());
            String now = known.getOrDefault(column, "");
            if (!now.equals(was) && !now.equals(typed.getOrDefault(column, "").strip())) {
              changed.put(column, now);
            }
          }
        });
    return changed;
  }

  private static String taken(
      Sheet sheet, Map<String, String> typed, boolean editing, RedirectAttributes flash) {
    flash.addFlashAttribute("notice", editing ? "describe.kept" : "describe.taken." + sheet.path());
    flash.addFlashAttribute(
        "noticeArgs", new Object[] {typed.getOrDefault(sheet.key().get(0), "")});
    String next = editing ? null : DescribePage.next(sheet, typed);
    if (next != null) {
      return "redirect:" + next;
    }
    return switch (sheet.path()) {
      case "rate", "charge", "block" ->
          "redirect:/rates/" + typed.getOrDefault("schedule", "").strip();
      case "system" -> "redirect:/systems/" + typed.getOrDefault("system", "").strip();
      case "setting" -> "redirect:/systems/" + typed.getOrDefault("system", "").strip();
      default ->
          "redirect:/describe/"
              + sheet.path()
              + "?edit&"
              + sheet.key().get(0)
              + "="
              + typed.getOrDefault(sheet.key().get(0), "").strip();
    };
  }

  private static Map<String, String> key(Sheet sheet, Map<String, String> given) {
    Map<String, String> key = new LinkedHashMap<>();
    for (String column : sheet.key()) {
      key.put(column, given.getOrDefault(column, "").strip());
    }
    return key;
  }

  private static Sheet sheet(String path) {
    return Sheet.ALL.stream()
        .filter(sheet -> sheet.path().equals(path))
        .findFirst()
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
