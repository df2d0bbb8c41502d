package towerledger.office.report;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
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
import towerledger.account.Customer;
import towerledger.account.Customers;
import towerledger.account.EmailAddress;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;
import towerledger.report.Deliveries;
import towerledger.report.Leavers;
import towerledger.report.ReportException;
import towerledger.report.ReportIssue;
import towerledger.report.ReportPlan;
import towerledger.report.ReportPlans;
import towerledger.report.Reports;
import towerledger.wording.ReasonText;

/** Plans, drafts and deliveries of the monthly report. */
@Controller
@RequestMapping("/reports")
class ReportsController {

  private static final String ISSUE = "/{id:[0-9]{1,18}}";
  private static final String MAIL = "/mails/{id:[0-9]{1,18}}";

  private final Reports reports;
  private final ReportPlans plans;
  private final Deliveries deliveries;
  private final Leavers leavers;
  private final Customers customers;
  private final ReportsPage page;

  ReportsController(
      Reports reports,
      ReportPlans plans,
      Deliveries deliveries,
      Leavers leavers,
      Customers customers,
      ReportsPage page) {
    this.reports = reports;
    this.plans = plans;
    this.deliveries = deliveries;
    this.leavers = leavers;
    this.customers = customers;
    this.page = page;
  }

  @GetMapping
  String list(
      @RequestParam(defaultValue = "") String search,
      @RequestParam(defaultValue = "0") int offset,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    model.addAttribute("view", page.shelf(search, offset, text));
    return "office/reports";
  }

  @GetMapping("/of/{code}")
  String show(
      @PathVariable String code, @ModelAttribute("figureText") FigureText text, Model model) {
    model.addAttribute("view", page.one(customer(code), null, null, text));
    return "office/report-plan";
  }

  @PostMapping("/of/{code}")
  String keep(
      @PathVariable String code,
      @RequestParam(defaultValue = "false") boolean active,
      @RequestParam(defaultValue = "") String day,
      @RequestParam(defaultValue = "7") int hour,
      @RequestParam(defaultValue = "") String zone,
      @RequestParam(defaultValue = "en") String language,
      @RequestParam(defaultValue = "US") String units,
      @RequestParam(defaultValue = "false") boolean onlyNotable,
      @RequestParam(defaultValue = "false") boolean held,
      @RequestParam(defaultValue = "") String manager,
      @RequestParam(defaultValue = "") String replyTo,
      @RequestParam(defaultValue = "") String recipients,
      Actor actor,
      @ModelAttribute("figureText") FigureText text,
      RedirectAttributes flash,
      Model model) {
    Customer customer = customer(code);
    var form =
        new ReportsView.PlanForm(
            active,
            day,
            hour,
            zone,
            language,
            units,
            onlyNotable,
            held,
            manager,
            replyTo,
            recipients);
    try {
      plans.put(plan(customer, form), addresses(recipients), actor);
      flash.addFlashAttribute("notice", "reports.plan.kept");
      return "redirect:/reports/of/" + code;
    } catch (ReportException | AccountException e) {
      model.addAttribute("view", page.one(customer, form, e.getMessage(), text));
      return "office/report-plan";
    }
  }

  private static ReportPlan plan(Customer customer, ReportsView.PlanForm form) {
    return new ReportPlan(
        customer.id(),
        form.active(),
        day(form.day()),
        form.hour(),
        zone(form.zone()),
        ReportsPage.LANGUAGES.contains(form.language()) ? form.language() : "en",
        form.units().equals("SI") ? UnitPreference.SI : UnitPreference.US,
        form.onlyNotable(),
        form.held(),
        shortened(form.manager()),
        form.replyTo().isBlank() ? null : EmailAddress.of(form.replyTo()).value(),
        Instant.EPOCH);
  }

  private static int day(String typed) {
    if (!typed.strip().matches("\\d{1,2}")) {
      throw new ReportException("day '%s' of the month; choose 1 to 28".formatted(typed));
    }
    return Integer.parseInt(typed.strip());
  }

  private static ZoneId zone(String typed) {
    try {
      return ZoneId.of(typed.strip());
    } catch (DateTimeException e) {
      throw new ReportException(
          "there is no time zone '%s'; write one as America/Chicago".formatted(typed));
    }
  }

  private static @Nullable String shortened(String typed) {
    String text = typed.strip();
    return text.isEmpty() ? null : text.substring(0, Math.min(200, text.length()));
  }

  private static List<EmailAddress> addresses(String typed) {
    return Arrays.stream(typed.split("[;,\\s]+"))
        .filter(address -> !address.isBlank())
        .map(EmailAddress::of)
        .distinct()
        .toList();
  }

  @PostMapping("/of/{code}/prepare")
  String prepare(
      @PathVariable String code,
      @RequestParam YearMonth month,
      Actor actor,
      RedirectAttributes flash) {
    ReportIssue draft = reports.prepare(customer(code).id(), month, actor);
    flash.addFlashAttribute("notice", "reports.prepared");
    return "redirect:/reports/" + draft.id();
  }

  @PostMapping("/of/{code}/welcome-back")
  String welcomeBack(
      @PathVariable String code,
      @RequestParam String recipient,
      Actor actor,
      RedirectAttributes flash) {
    leavers.welcomeBack(customer(code).id(), recipient, actor);
    flash.addFlashAttribute("notice", "reports.leavers.back");
    flash.addFlashAttribute("noticeArgs", new Object[] {recipient});
    return "redirect:/reports/of/" + code;
  }

  @GetMapping(ISSUE)
  String issue(@PathVariable long id, @ModelAttribute("figureText") FigureText text, Model model) {
    model.addAttribute("view", page.issue(get(id), text));
    return "office/report";
  }

  @PostMapping(ISSUE + "/note")
  String annotate(
      @PathVariable long id,
      @RequestParam(defaultValue = "") String note,
      @RequestParam(defaultValue = "") String noteBy,
      Actor actor,
      RedirectAttributes flash) {
    get(id);
    if (note.length() > 4000 || noteBy.length() > 200) {
      return refused(flash, id, "a note takes 4000 characters and a name 200");
    }
    return attempt(flash, id, "reports.noted", () -> reports.annotate(id, note, noteBy, actor));
  }

  @PostMapping(ISSUE + "/approve")
  String approve(
      @PathVariable long id, @RequestParam String digest, Actor actor, RedirectAttributes flash) {
    get(id);
    return attempt(flash, id, "reports.approved", () -> reports.approve(id, digest, actor));
  }

  @PostMapping(ISSUE + "/discard")
  String discard(@PathVariable long id, Actor actor, RedirectAttributes flash) {
    get(id);
    return attempt(flash, id, "reports.discarded", () -> reports.discard(id, actor));
  }

  private static String attempt(RedirectAttributes flash, long id, String notice, Runnable deed) {
    try {
      deed.run();
      flash.addFlashAttribute("notice", notice);
      return "redirect:/reports/" + id;
    } catch (ReportException e) {
      return refused(flash, id, String.valueOf(e.getMessage()));
    }
  }

  private static String refused(RedirectAttributes flash, long id, String why) {
    flash.addFlashAttribute("trouble", "reports.trouble");
    flash.addFlashAttribute("troubleArgs", new Object[] {ReasonText.later(why)});
    return "redirect:/reports/" + id;
  }

  @PostMapping(MAIL + "/retry")
  String retry(@PathVariable long id, Actor actor, RedirectAttributes flash) {
    if (deliveries.retry(id, actor)) {
      flash.addFlashAttribute("notice", "reports.mail.again");
    }
    return "redirect:/reports";
  }

  @PostMapping(MAIL + "/noted")
  String noted(@PathVariable long id, Actor actor) {
    deliveries.note(id, actor);
    return "redirect:/reports";
  }

  private Customer customer(String code) {
    return customers
        .find(code)
        .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }

  private ReportIssue get(long id) {
    return reports.find(id).orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
  }
}
