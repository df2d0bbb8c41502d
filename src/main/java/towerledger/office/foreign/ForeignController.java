package towerledger.office.foreign;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.file.Path;
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
import org.springframework.web.multipart.MultipartFile;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.Actor;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.intake.ForeignTables;
import towerledger.intake.ForeignTables.Preview;
import towerledger.intake.ImportReceipt;
import towerledger.intake.ImportRequest;
import towerledger.intake.KeptTables;
import towerledger.intake.KeptTables.Kept;
import towerledger.intake.UploadFolder;
import towerledger.intake.UploadRefused;
import towerledger.intake.csv.Columns;
import towerledger.intake.foreign.ForeignMapping;
import towerledger.office.foreign.ForeignView.Choice;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** A table with columns of its own: handed in, mapped while it is looked at, and taken. */
@Controller
class ForeignController {

  private static final List<String> KINDS =
      List.of(
          "register_readings",
          "interval_volumes",
          "water_samples",
          "pressure_readings",
          "heat_loads",
          "weather_hours",
          "utility_bills",
          "visits",
          "meters",
          "towers");
  private static final int LONGEST_SENDER = 80;

  private final ForeignTables tables;
  private final KeptTables kept;
  private final MessageSource messages;

  ForeignController(ForeignTables tables, KeptTables kept, MessageSource messages) {
    this.tables = tables;
    this.kept = kept;
    this.messages = messages;
  }

  @GetMapping("/intake/foreign")
  String choose(@ModelAttribute("figureText") FigureText text, Model model) {
    model.addAttribute("view", chosen("register_readings", "", null, text));
    return "office/foreign";
  }

  @PostMapping("/intake/foreign")
  String keep(
      Viewer viewer,
      Actor actor,
      @RequestParam(name = "file", required = false) @Nullable MultipartFile table,
      @RequestParam(name = "kind", defaultValue = "") String kind,
      @RequestParam(name = "sender", defaultValue = "") String sender,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      Model model)
      throws IOException {
    Words words = new Words(messages, text.locale());
    String name = sender.strip();
    String trouble;
    if (table == null || table.isEmpty()) {
      trouble = words.of("foreign.no-file");
    } else if (!KINDS.contains(kind)) {
      trouble = words.of("foreign.no-kind");
    } else if (name.length() > LONGEST_SENDER) {
      trouble = words.of("foreign.long-sender", LONGEST_SENDER);
    } else {
      try (UploadFolder folder = UploadFolder.open()) {
        Path place = ForeignTables.layDown(table.getInputStream(), folder.path());
        String origin = String.valueOf(table.getOriginalFilename());
        // Looked at once now, so that a file that is no table is refused beside its field.
        tables.preview(place, kind, name, null, new ImportRequest(actor, viewer, origin));
        return "redirect:/intake/foreign/" + kept.keep(actor, place, origin, kind, name).id();
      } catch (UploadRefused e) {
        trouble = new ReasonText(words, text).say(e);
      }
    }
    response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
    model.addAttribute("view", chosen(kind, sender, trouble, text));
    return "office/foreign";
  }

  @GetMapping("/intake/foreign/{id}")
  String map(
      Viewer viewer,
      Actor actor,
      @PathVariable String id,
      @ModelAttribute("figureText") FigureText text,
      Model model)
      throws IOException {
    Kept table = find(id);
    ImportRequest request = new ImportRequest(actor, viewer, table.name());
    Words words = new Words(messages, text.locale());
    try (UploadFolder folder = UploadFolder.open()) {
      Preview preview =
          tables.preview(kept.layDown(table, folder), table.file(), table.sender(), null, request);
      model.addAttribute("view", suggested(table, preview, words, text));
    }
    return "office/foreign-table";
  }

  @PostMapping("/intake/foreign/{id}")
  String look(
      Viewer viewer,
      Actor actor,
      @PathVariable String id,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      Model model)
      throws IOException {
    Kept table = find(id);
    ImportRequest request = new ImportRequest(actor, viewer, table.name());
    Words words = new Words(messages, text.locale());
    Columns columns = tables.columns(table.file());
    var form = new MappingForm(columns, typed, words);
    try (UploadFolder folder = UploadFolder.open()) {
      Path place = kept.layDown(table, folder);
      if (form.cutAnew()) {
        ForeignMapping layout = form.layout();
        if (!form.isWrong()) {
          Preview preview = tables.preview(place, table.file(), table.sender(), layout, request);
          model.addAttribute("view", suggested(table, preview, words, text));
          return "office/foreign-table";
        }
      }
      ForeignMapping mapping = form.mapping();
      String trouble = form.isWrong() ? words.of("foreign.not-yet") : null;
      if (trouble == null && typed.containsKey("take")) {
        ImportReceipt receipt = tables.take(place, table.sender(), mapping, request);
        kept.remove(table);
        return "redirect:/intake/imports/" + receipt.id();
      }
      if (trouble != null) {
        response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
      }
      Preview preview =
          tables.preview(
              place,
              table.file(),
              table.sender(),
              mapping.columns().isEmpty() ? form.layout() : mapping,
              request);
      model.addAttribute(
          "view",
          view(
              table,
              preview,
              form,
              trouble,
              words.of("foreign.about.typed"),
              List.of(),
              words,
              text));
    } catch (UploadRefused e) {
      response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
      model.addAttribute(
          "view", refused(table, form, new ReasonText(words, text).say(e), request, words, text));
    }
    return "office/foreign-table";
  }

  /** The form as it was typed, over the table as it is cut without it. */
  private ForeignView.Mapped refused(
      Kept table,
      MappingForm form,
      String trouble,
      ImportRequest request,
      Words words,
      FigureText text)
      throws IOException {
    try (UploadFolder folder = UploadFolder.open()) {
      Preview preview =
          tables.preview(kept.layDown(table, folder), table.file(), table.sender(), null, request);
      return view(
          table, preview, form, trouble, words.of("foreign.about.typed"), List.of(), words, text);
    }
  }

  private Kept find(String id) {
    return kept.find(id).orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }

  private ForeignView.Choose chosen(
      String kind, String sender, @Nullable String trouble, FigureText text) {
    Words words = new Words(messages, text.locale());
    return new ForeignView.Choose(
        KINDS.stream().map(code -> new Choice(code, words.of("foreign.kind." + code))).toList(),
        kind,
        sender,
        trouble);
  }

  private ForeignView.Mapped suggested(Kept table, Preview preview, Words words, FigureText text) {
    return view(
        table,
        preview,
        MappingForm.of(tables.columns(table.file()), preview.mapping(), words),
        null,
        preview.remembered()
            ? words.of("foreign.about.remembered", table.sender())
            : words.of("foreign.about.suggested"),
        preview.questions(),
        words,
        text);
  }

  private static ForeignView.Mapped view(
      Kept table,
      Preview preview,
      MappingForm form,
      @Nullable String trouble,
      String about,
      List<String> questions,
      Words words,
      FigureText text) {
    ReasonText reasons = new ReasonText(words, text);
    long taken = preview.rows().stream().filter(row -> row.problem().isEmpty()).count();
    List<ForeignView.Field> more = form.fields(false);
    return new ForeignView.Mapped(
        table.id(),
        table.name(),
        words.of("foreign.kind." + table.file()),
        about,
        trouble,
        reasons.say(questions),
        form.layoutView(),
        form.fields(true),
        more,
        more.stream().anyMatch(field -> field.wrongPattern() != null),
        preview.header().stream().filter(name -> !name.isBlank()).toList(),
        preview.header(),
        preview.rows().stream().map(ForeignTables.PreviewRow::given).toList(),
        preview.columns(),
        preview.rows().stream()
            .map(row -> new ForeignView.Becomes(row.becomes(), reasons.say(row.problem())))
            .toList(),
        preview.rows().isEmpty()
            ? words.of("foreign.no-rows")
            : words.of("foreign.verdict", preview.rows().size(), taken));
  }
}
