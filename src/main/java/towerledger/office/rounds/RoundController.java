package towerledger.office.rounds;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import org.springframework.web.server.ResponseStatusException;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.logsheet.LogEntry;
import towerledger.meter.ReadingEntry;
import towerledger.meter.RegisterReading;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/**
 * Rounds: readings, samples and what was seen, entered at the tower. A sheet sent twice is taken
 * once: readings and log rows are known by what they are of and when, which the sheet carries.
 */
@Controller
@OpenTo({Role.OFFICE, Role.TECHNICIAN})
class RoundController {

  private final SiteAccess access;
  private final Sites sites;
  private final RoundPage page;
  private final ReadingEntry readings;
  private final LogEntry log;
  private final Photos photos;
  private final MessageSource messages;
  private final Clock clock;

  RoundController(
      SiteAccess access,
      Sites sites,
      RoundPage page,
      ReadingEntry readings,
      LogEntry log,
      Photos photos,
      MessageSource messages,
      Clock clock) {
    this.access = access;
    this.sites = sites;
    this.page = page;
    this.readings = readings;
    this.log = log;
    this.photos = photos;
    this.messages = messages;
    this.clock = clock;
  }

  @GetMapping("/rounds")
  String due(
      Viewer viewer,
      @RequestParam(defaultValue = "") String search,
      @RequestParam(defaultValue = "0") int offset,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute("view", page.due(viewer, search, offset, text));
    return "office/rounds";
  }

  @GetMapping("/rounds/{code}")
  String sheet(
      Viewer viewer,
      @PathVariable String code,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute(
        "view",
        page.sheet(viewer, code, text)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND)));
    return "office/round";
  }

  /**
   * Takes a sheet. A draft that the browser kept is answered in plain text: 204 when it was taken,
   * 200 with the remarks, a line each, when there are any, 422 with the reasons when it was not.
   */
  @OpenTo(
      value = {Role.OFFICE, Role.TECHNICIAN},
      need = OpenTo.Need.ENTER)
  @PostMapping("/rounds/{code}")
  @Nullable String take(
      Viewer viewer,
      Actor actor,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      @RequestParam(name = "finding", defaultValue = "") List<String> findings,
      @RequestParam(name = "event", defaultValue = "") List<String> events,
      @RequestParam(name = "photo", required = false) @Nullable MultipartFile photo,
      @RequestHeader(name = "X-Draft", defaultValue = "false") boolean draft,
      @ModelAttribute("figureText") FigureText text,
      HttpServletResponse response,
      RedirectAttributes flash,
      Model model)
      throws IOException {
    CoolingSystem system = find(viewer, code);
    Words words = new Words(messages, text.locale());
    Map<String, String> wrong = new LinkedHashMap<>();
    ZoneId zone = sites.findSite(system.siteId()).orElseThrow().details().zone();
    ReasonText reasons = new ReasonText(words, text, zone);
    List<String> remarks = List.of();
    try {
      remarks =
          store(viewer, actor, system, typed, set(findings), set(events), photo, wrong, reasons);
    } catch (RoundSheet.Unreadable e) {
      e.wrong().forEach((field, key) -> wrong.put(field, words.of(key)));
    } catch (Photo.PhotoRefused e) {
      wrong.put("photo", words.of(String.valueOf(e.getMessage())));
    }
    if (wrong.isEmpty()) {
      if (draft) {
        response.setStatus((remarks.isEmpty() ? HttpStatus.NO_CONTENT : HttpStatus.OK).value());
        return answer(response, remarks);
      }
      flash.addFlashAttribute("notice", remarks.isEmpty() ? "round.taken" : "round.taken.remarks");
      flash.addFlashAttribute("noticeArgs", new Object[] {String.join(" · ", remarks)});
      return "redirect:/rounds/" + system.code();
    }
    response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
    if (draft) {
      return answer(response, named(system, wrong, words));
    }
    if (!remarks.isEmpty()) {
      model.addAttribute("notice", "round.taken.remarks");
      model.addAttribute("noticeArgs", new Object[] {String.join(" · ", remarks)});
    }
    Set<String> chosen = new LinkedHashSet<>(findings);
    chosen.addAll(events);
    model.addAttribute("view", page.sheet(system, typed, chosen, wrong, text));
    return "office/round";
  }

  /** What is wrong with a draft, a line a field: whoever reads it may no longer see the field. */
  private List<String> named(CoolingSystem system, Map<String, String> wrong, Words words) {
    Map<String, String> names = page.fieldNames(system, words);
    return wrong.entrySet().stream()
        .map(
            field ->
                names.containsKey(field.getKey())
                    ? words.of("round.wrong", names.get(field.getKey()), field.getValue())
                    : field.getValue())
        .toList();
  }

  private static @Nullable String answer(HttpServletResponse response, List<String> lines)
      throws IOException {
    response.setContentType("text/plain;charset=UTF-8");
    response.getWriter().write(String.join("\n", lines));
    return null;
  }

  /** A photo of a round. */
  @GetMapping("/rounds/photos/{id}.jpg")
  ResponseEntity<byte[]> photo(Viewer viewer, @PathVariable long id) {
    return photos
        .find(viewer, id)
        .map(
            jpeg ->
                ResponseEntity.ok()
                    .contentType(MediaType.IMAGE_JPEG)
                    .cacheControl(CacheControl.noCache().cachePrivate())
                    .body(jpeg))
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }

  private static Set<String> set(List<String> codes) {
    Set<String> set = new LinkedHashSet<>(codes);
    set.remove("");
    return set;
  }

  private List<String> store(
      Viewer viewer,
      Actor actor,
      CoolingSystem system,
      Map<String, String> typed,
      Set<String> findings,
      Set<String> events,
      @Nullable MultipartFile photo,
      Map<String, String> wrong,
      ReasonText reasons)
      throws RoundSheet.Unreadable, IOException {
    ZoneId zone = sites.findSite(system.siteId()).orElseThrow().details().zone();
    RoundSheet sheet =
        RoundSheet.read(typed, findings, events, viewer.units(), zone, clock.instant());
    boolean pictured = photo != null && !photo.isEmpty();
    if (sheet.isEmpty() && !pictured) {
      wrong.put("when", reasons.words().of("round.empty"));
      return List.of();
    }
    Optional<byte[]> jpeg =
        photo == null || photo.isEmpty()
            ? Optional.empty()
            : Optional.of(Photo.rewrite(photo.getBytes()));
    List<String> remarks = new ArrayList<>();
    for (Meter meter : page.inService(system)) {
      var register = sheet.registers().get(meter.code());
      if (register == null) {
        continue;
      }
      try {
        readings
            .enter(
                actor,
                meter,
                RegisterReading.actual(sheet.at(), register),
                null,
                page.expected(meter, sheet.at()))
            .remarks()
            .stream()
            .map(remark -> reasons.say(remark.words()))
            .forEach(remarks::add);
      } catch (IllegalArgumentException e) {
        wrong.put(RoundSheet.REGISTER + meter.code(), reasons.say(e));
      }
    }
    sheet.sample().ifPresent(sample -> log.enter(actor, system, sample));
    sheet.pressure().ifPresent(pressure -> log.enter(actor, system, pressure));
    sheet.visit().ifPresent(visit -> log.enter(actor, system, visit));
    jpeg.ifPresent(bytes -> photos.keep(actor, system, sheet.at(), bytes));
    return remarks;
  }

  private CoolingSystem find(Viewer viewer, String code) {
    return access
        .findSystem(viewer, code)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
