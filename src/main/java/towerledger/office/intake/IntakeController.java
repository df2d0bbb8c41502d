package towerledger.office.intake;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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
import towerledger.intake.FileReceipt;
import towerledger.intake.ImportReceipt;
import towerledger.intake.ImportRequest;
import towerledger.intake.Importer;
import towerledger.intake.Imports;
import towerledger.intake.Quarantine;
import towerledger.intake.QuarantinedRow;
import towerledger.intake.Upload;
import towerledger.intake.UploadFolder;
import towerledger.intake.UploadRefused;
import towerledger.intake.WaitingRows;
import towerledger.job.Job;
import towerledger.job.Jobs;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Takes files from the office and says what became of them. */
@Controller
class IntakeController {

  private static final int LISTED_IMPORTS = 10;
  private static final int LISTED_ROWS = 50;

  private final Importer importer;
  private final Imports imports;
  private final Quarantine quarantine;
  private final WaitingRows waiting;
  private final Jobs jobs;
  private final MessageSource messages;

  IntakeController(
      Importer importer,
      Imports imports,
      Quarantine quarantine,
      WaitingRows waiting,
      Jobs jobs,
      MessageSource messages) {
    this.importer = importer;
    this.imports = imports;
    this.quarantine = quarantine;
    this.waiting = waiting;
    this.jobs = jobs;
    this.messages = messages;
  }

  @GetMapping("/intake")
  String show(Viewer viewer, @ModelAttribute("figureText") FigureText text, Model model) {
    model.addAttribute("view", desk(viewer, null, text));
    return "office/intake";
  }

  @PostMapping("/intake")
  String take(
      Viewer viewer,
      Actor actor,
      @RequestParam(name = "file", required = false) @Nullable List<MultipartFile> parts,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      Model model)
      throws IOException {
    List<MultipartFile> files =
        parts == null ? List.of() : parts.stream().filter(part -> !part.isEmpty()).toList();
    Words words = new Words(messages, text.locale());
    if (files.isEmpty()) {
      return refuse(viewer, words.of("intake.no-file"), text, response, model);
    }
    try (UploadFolder folder = UploadFolder.open();
        Upload upload = Upload.empty()) {
      int number = 0;
      for (MultipartFile part : files) {
        Path place = folder.path().resolve("part" + ++number);
        part.transferTo(place);
        upload.add(String.valueOf(part.getOriginalFilename()), place);
      }
      String names =
          files.stream()
              .map(part -> String.valueOf(part.getOriginalFilename()))
              .collect(Collectors.joining(", "));
      ImportReceipt receipt = importer.take(upload, new ImportRequest(actor, viewer, names));
      return "redirect:/intake/imports/" + receipt.id();
    } catch (UploadRefused e) {
      return refuse(viewer, String.valueOf(e.getMessage()), text, response, model);
    }
  }

  private String refuse(
      Viewer viewer, String trouble, FigureText text, HttpServletResponse response, Model model) {
    response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
    model.addAttribute("view", desk(viewer, trouble, text));
    return "office/intake";
  }

  @GetMapping("/intake/imports/{id}")
  String showImport(
      Viewer viewer,
      @PathVariable String id,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Imports.Entry entry =
        imports.find(id).orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    model.addAttribute("view", receipt(entry, text));
    return "office/import";
  }

  private IntakeView.Desk desk(Viewer viewer, @Nullable String trouble, FigureText text) {
    Words words = new Words(messages, text.locale());
    ReasonText reasons = new ReasonText(words, text);
    long count = quarantine.countWaiting(viewer);
    List<IntakeView.Waiting> rows =
        quarantine.list(viewer, QuarantinedRow.Status.WAITING, 0, LISTED_ROWS).stream()
            .map(row -> IntakeView.Waiting.of(row, reasons))
            .toList();
    return new IntakeView.Desk(
        words.of("intake.says", count),
        reasons.sayIfAny(trouble),
        imports.listRecent(LISTED_IMPORTS).stream().map(entry -> line(entry, words, text)).toList(),
        sheets(
            waiting.list(LISTED_IMPORTS).stream().filter(sheet -> sheet.rows() > 1),
            words,
            reasons),
        rows,
        count - rows.size());
  }

  private static List<IntakeView.SheetLine> sheets(
      Stream<WaitingRows.Sheet> sheets, Words words, ReasonText reasons) {
    return sheets
        .map(
            sheet ->
                new IntakeView.SheetLine(
                    sheet.importId(),
                    sheet.file(),
                    words.of("waiting.lead", sheet.rows()),
                    reasons.say(sheet.reason())))
        .toList();
  }

  private static IntakeView.Import line(Imports.Entry entry, Words words, FigureText text) {
    return new IntakeView.Import(
        entry.id(),
        text.moment(entry.startedAt(), ZoneOffset.UTC),
        entry.origin(),
        entry.actor(),
        "intake.status." + entry.status(),
        words.of("intake.rows", entry.rows(), entry.quarantined()));
  }

  private IntakeView.Receipt receipt(Imports.Entry entry, FigureText text) {
    Words words = new Words(messages, text.locale());
    ReasonText reasons = new ReasonText(words, text);
    return new IntakeView.Receipt(
        entry.id(),
        words.of(
            "intake.receipt." + entry.status(),
            entry.rows(),
            entry.files().stream().mapToLong(FileReceipt::added).sum(),
            entry.files().stream().mapToLong(FileReceipt::changed).sum(),
            entry.quarantined()),
        words.of(
            "intake.about",
            entry.origin(),
            entry.actor(),
            text.moment(entry.startedAt(), ZoneOffset.UTC)),
        reasons.sayIfAny(entry.error()),
        entry.files().stream().map(file -> file(file, reasons)).toList(),
        entry.reconciliation() == null
            ? null
            : jobs.find(entry.reconciliation()).map(job -> reckoning(job, reasons)).orElse(null),
        entry.status() == Imports.Status.RUNNING,
        entry.quarantined() == 0
            ? List.of()
            : sheets(waiting.listOf(entry.id()).stream(), words, reasons));
  }

  private static IntakeView.File file(FileReceipt file, ReasonText reasons) {
    FigureText text = reasons.figures();
    return new IntakeView.File(
        file.file(),
        text.decimals(file.rows(), 0),
        text.decimals(file.added(), 0),
        text.decimals(file.changed(), 0),
        text.decimals(file.unchanged(), 0),
        text.decimals(file.quarantined(), 0),
        reasons.say(file.reasons()));
  }

  private static IntakeView.Reckoning reckoning(Job job, ReasonText reasons) {
    return new IntakeView.Reckoning(
        "job." + job.status(), job.progress(), reasons.say(job.message()), job.status().isFinal());
  }
}
