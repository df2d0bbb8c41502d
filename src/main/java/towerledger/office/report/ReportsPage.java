package towerledger.office.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.net.URLEncoder;
import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Customer;
import towerledger.account.Customers;
import towerledger.account.EmailAddress;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.report.Deliveries;
import towerledger.report.Leavers;
import towerledger.report.ReportIssue;
import towerledger.report.ReportMail;
import towerledger.report.ReportPlan;
import towerledger.report.ReportPlans;
import towerledger.report.Reports;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Composes the pages on reports. */
@Component
class ReportsPage {

  private static final int ROWS = 50;
  private static final int MONTHS = 13;

  /** Languages a report can be written in: those the texts exist in. */
  static final List<String> LANGUAGES = List.of("en", "es");

  private final Reports reports;
  private final Ledger ledger;
  private final ReportPlans plans;
  private final Deliveries deliveries;
  private final Leavers leavers;
  private final Customers customers;
  private final MessageSource messages;
  private final Clock clock;

  ReportsPage(
      Reports reports,
      Ledger ledger,
      ReportPlans plans,
      Deliveries deliveries,
      Leavers leavers,
      Customers customers,
      MessageSource messages,
      Clock clock) {
    this.reports = reports;
    this.ledger = ledger;
    this.plans = plans;
    this.deliveries = deliveries;
    this.leavers = leavers;
    this.customers = customers;
    this.messages = messages;
    this.clock = clock;
  }

  /** Customers and what waits, read in one transaction. */
  @Transactional(readOnly = true)
  ReportsView.Shelf shelf(String search, int offset, FigureText text) {
    Words words = new Words(messages, text.locale());
    int from = Math.max(0, offset);
    List<Customer> found = customers.list(search, from, ROWS + 1);
    List<Customer> shown = found.subList(0, Math.min(ROWS, found.size()));
    List<Long> ids = shown.stream().map(Customer::id).toList();
    Map<Long, ReportPlan> active = plans.listActive(ids);
    Map<Long, ReportIssue> newest = reports.listNewest(ids);
    List<ReportsView.Line> held = held();
    return new ReportsView.Shelf(
        words.of("reports.lead", plans.countActive(), held.size(), deliveries.countWaiting()),
        deliveries.missingSetting().orElse(null),
        held,
        deliveries.listTroubles().stream().map(mail -> trouble(mail, words)).toList(),
        search,
        shown.stream()
            .map(
                customer ->
                    row(
                        customer,
                        active.get(customer.id()),
                        newest.get(customer.id()),
                        words,
                        text))
            .toList(),
        from > 0 ? address(search, Math.max(0, from - ROWS)) : null,
        found.size() > ROWS ? address(search, from + ROWS) : null);
  }

  private List<ReportsView.Line> held() {
    List<ReportIssue> drafts = reports.listHeld();
    Map<Long, Customer> whose =
        customers.list(drafts.stream().map(ReportIssue::customerId).distinct().toList());
    List<ReportsView.Line> held = new ArrayList<>();
    for (ReportIssue draft : drafts) {
      Customer customer = whose.get(draft.customerId());
      if (customer != null) {
        held.add(new ReportsView.Line(path(draft), customer.name(), draft.subject()));
      }
    }
    return held;
  }

  private static String address(String search, int offset) {
    return "/reports?offset=" + offset + "&search=" + URLEncoder.encode(search, UTF_8);
  }

  private ReportsView.Trouble trouble(ReportMail mail, Words words) {
    return new ReportsView.Trouble(
        mail.id(),
        mail.recipient(),
        reports.find(mail.issueId()).map(ReportIssue::subject).orElse(""),
        "/reports/" + mail.issueId(),
        words.of("reports.mail." + mail.status().code()),
        mail.answer() == null ? "" : mail.answer());
  }

  private ReportsView.Row row(
      Customer customer,
      @Nullable ReportPlan plan,
      @Nullable ReportIssue newest,
      Words words,
      FigureText text) {
    return new ReportsView.Row(
        "/reports/of/" + customer.code(),
        customer.name(),
        plan == null ? words.of("reports.plan.none") : says(plan, words),
        plan == null ? "" : next(plan, words, text),
        customer.details().reportEmails().size(),
        newest == null
            ? words.of("reports.none")
            : words.of(
                "reports.newest",
                text.month(newest.month()),
                words.of("reports.status." + newest.status().code())),
        newest == null ? null : path(newest));
  }

  private static String says(ReportPlan plan, Words words) {
    return words.of(
        plan.held() ? "reports.plan.held" : "reports.plan.direct",
        plan.dayOfMonth(),
        "%02d:00".formatted(plan.hourOfDay()),
        plan.zone().getId().replace('_', ' '));
  }

  private String next(ReportPlan plan, Words words, FigureText text) {
    Instant now = clock.instant();
    YearMonth month = plan.nextMonth(now);
    return words.of("reports.next", text.month(month), text.moment(plan.due(month), plan.zone()));
  }

  ReportsView.One one(
      Customer customer,
      ReportsView.@Nullable PlanForm typed,
      @Nullable String trouble,
      FigureText text) {
    Words words = new Words(messages, text.locale());
    ReportPlan plan = plans.get(customer.id());
    int recipients = customer.details().reportEmails().size();
    List<ReportsView.IssueRow> issues =
        reports.list(customer.id()).stream()
            .map(
                issue ->
                    new ReportsView.IssueRow(
                        path(issue),
                        month(issue, words, text),
                        words.of("reports.status." + issue.status().code()),
                        issue.subject(),
                        issue.language(),
                        text.moment(
                            issue.decidedAt() == null ? issue.preparedAt() : issue.decidedAt(),
                            issue.zone())))
            .toList();
    return new ReportsView.One(
        customer.code(),
        customer.name(),
        plan.active()
            ? words.of(
                "reports.one.lead",
                customer.name(),
                recipients,
                says(plan, words),
                next(plan, words, text))
            : words.of("reports.one.none", customer.name(), recipients),
        deliveries.missingSetting().orElse(null),
        typed == null ? form(plan, customer) : typed,
        new ReasonText(words, text).sayIfAny(trouble),
        LANGUAGES,
        IntStream.range(0, 24).boxed().toList(),
        leavers.list(customer.id()),
        months(customer.id(), plan.zone(), text),
        issues);
  }

  /** Months that are over and that the customer's systems have rows for, newest first. */
  private List<ReportsView.Choice> months(long customerId, ZoneId zone, FigureText text) {
    YearMonth newest = YearMonth.from(clock.instant().atZone(zone)).minusMonths(1);
    YearMonth oldest = ledger.findOldestMonth(customerId).orElse(newest.plusMonths(1));
    List<ReportsView.Choice> months = new ArrayList<>();
    for (int back = 0; back < MONTHS && !newest.minusMonths(back).isBefore(oldest); back++) {
      YearMonth month = newest.minusMonths(back);
      months.add(new ReportsView.Choice(month.toString(), text.month(month)));
    }
    return months;
  }

  private static ReportsView.PlanForm form(ReportPlan plan, Customer customer) {
    return new ReportsView.PlanForm(
        plan.active(),
        String.valueOf(plan.dayOfMonth()),
        plan.hourOfDay(),
        plan.zone().getId(),
        plan.language(),
        plan.units().name(),
        plan.onlyNotable(),
        plan.held(),
        plan.manager() == null ? "" : plan.manager(),
        plan.replyTo() == null ? "" : plan.replyTo(),
        String.join(
            "\n", customer.details().reportEmails().stream().map(EmailAddress::value).toList()));
  }

  ReportsView.Issue issue(ReportIssue issue, FigureText text) {
    Words words = new Words(messages, text.locale());
    Customer customer = customers.get(issue.customerId());
    ReportPlan plan = plans.get(customer.id());
    boolean draft = issue.status() == ReportIssue.Status.DRAFT;
    return new ReportsView.Issue(
        issue.id(),
        customer.name(),
        "/reports/of/" + customer.code(),
        month(issue, words, text),
        issue.subject(),
        issue.language(),
        draft
            ? words.of(
                "reports.issue.draft",
                text.stamp(issue.preparedAt(), issue.zone()),
                issue.preparedBy())
            : words.of(
                "reports.issue." + issue.status().code(),
                issue.decidedAt() == null ? "" : text.stamp(issue.decidedAt(), issue.zone()),
                String.valueOf(issue.decidedBy())),
        draft,
        issue.digest(),
        issue.note() == null ? "" : issue.note(),
        issue.noteBy() == null ? plan.manager() == null ? "" : plan.manager() : issue.noteBy(),
        customer.details().reportEmails().stream().map(EmailAddress::value).toList(),
        deliveries.missingSetting().orElse(null),
        deliveries.list(issue.id()).stream()
            .map(mail -> mail(mail, issue.zone(), words, text))
            .toList());
  }

  private static ReportsView.Mail mail(ReportMail mail, ZoneId zone, Words words, FigureText text) {
    String when =
        mail.settledAt() != null
            ? text.moment(mail.settledAt(), zone)
            : mail.nextAt() != null ? text.moment(mail.nextAt(), zone) : "";
    return new ReportsView.Mail(
        mail.id(),
        mail.recipient(),
        words.of("reports.mail." + mail.status().code() + ".at", when),
        mail.status().isTrouble(),
        mail.answer() == null ? "" : new ReasonText(words, text).say(mail.answer()),
        mail.messageId(),
        mail.log().stream()
            .map(
                attempt ->
                    words.of(
                        "reports.attempt",
                        text.moment(attempt.at(), zone),
                        new ReasonText(words, text).say(attempt.answer())))
            .toList());
  }

  private static String month(ReportIssue issue, Words words, FigureText text) {
    return issue.edition() == 1
        ? text.month(issue.month())
        : words.of("reports.edition", text.month(issue.month()), issue.edition());
  }

  private static String path(ReportIssue issue) {
    return "/reports/" + issue.id();
  }
}
