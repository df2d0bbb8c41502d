package towerledger.report;

import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Customer;
import towerledger.account.Customers;
import towerledger.report.content.Rendered;
import towerledger.report.content.ReportOrder;
import towerledger.report.content.ReportRenderer;
import towerledger.report.content.ReportWriter;
import towerledger.report.delivery.Outbox;

/**
 * Reports from draft to decision. What is approved is what was seen: the bytes are stored when the
 * draft is written, and those very bytes are sent.
 */
@Service
public class Reports {

  private final ReportWriter writer;
  private final ReportRenderer renderer;
  private final ReportPlans plans;
  private final IssueTable issues;
  private final Outbox outbox;
  private final Customers customers;
  private final ChangeHistory history;
  private final TransactionTemplate transaction;
  private final Clock clock;

  Reports(
      ReportWriter writer,
      ReportRenderer renderer,
      ReportPlans plans,
      IssueTable issues,
      Outbox outbox,
      Customers customers,
      ChangeHistory history,
      TransactionTemplate transaction,
      Clock clock) {
    this.writer = writer;
    this.renderer = renderer;
    this.plans = plans;
    this.issues = issues;
    this.outbox = outbox;
    this.customers = customers;
    this.history = history;
    this.transaction = transaction;
    this.clock = clock;
  }

  /**
   * Writes the report of a month as the ledger stands, as a draft: the draft there is anew, or the
   * next edition where one was decided on. Asked for twice at once, both get the one draft.
   */
  public ReportIssue prepare(long customerId, YearMonth month, Actor actor) {
    try {
      return transaction.execute(status -> prepareOnce(customerId, month, actor));
    } catch (DuplicateKeyException e) {
      // the other's draft is as fresh as this would have been
      return issues.findNewest(customerId, month).orElseThrow(() -> e);
    }
  }

  private ReportIssue prepareOnce(long customerId, YearMonth month, Actor actor) {
    Optional<ReportIssue> newest = issues.findNewest(customerId, month);
    if (newest.isPresent() && newest.get().status() == ReportIssue.Status.DRAFT) {
      return rewrite(newest.get(), newest.get().note(), newest.get().noteBy(), actor);
    }
    int edition = newest.map(issue -> issue.edition() + 1).orElse(1);
    return write(plans.get(customerId), month, edition, ReportIssue.Status.DRAFT, actor);
  }

  /** Writes a draft anew with a note above it. */
  @Transactional
  public ReportIssue annotate(
      long issueId, @Nullable String note, @Nullable String by, Actor actor) {
    return rewrite(draft(issueId), note, by, actor);
  }

  private ReportIssue rewrite(
      ReportIssue draft, @Nullable String note, @Nullable String by, Actor actor) {
    ReportPlan plan = plans.get(draft.customerId());
    ReportOrder order = order(plan, draft.month(), draft.edition(), note, by);
    Rendered rendered = renderer.render(order, writer.write(order));
    issues.rewrite(draft.id(), order, rendered, actor.name());
    return issues.get(draft.id());
  }

  /**
   * Decides to send a draft to the customer's recipients.
   *
   * @param digest what whoever approves has seen
   * @throws ReportException when the draft has changed since, was decided on, or nobody would get
   *     it
   */
  @Transactional
  public ReportIssue approve(long issueId, String digest, Actor actor) {
    ReportIssue draft = draft(issueId);
    if (customers.get(draft.customerId()).details().reportEmails().isEmpty()) {
      throw new ReportException(
          "no address is on the list of this customer's report; add one to the plan");
    }
    if (!issues.decide(issueId, digest, ReportIssue.Status.APPROVED, actor.name())) {
      throw new ReportException(
          "the draft was changed or decided on since you saw it; look at it again");
    }
    outbox.put(issueId, draft.customerId());
    record(actor, "approved", draft);
    return issues.get(issueId);
  }

  /** Decides not to send a draft. */
  @Transactional
  public ReportIssue discard(long issueId, Actor actor) {
    ReportIssue draft = draft(issueId);
    if (!issues.decide(issueId, draft.digest(), ReportIssue.Status.DISCARDED, actor.name())) {
      throw new ReportException("the draft was decided on since you saw it");
    }
    record(actor, "discarded", draft);
    return issues.get(issueId);
  }

  private void record(Actor actor, String action, ReportIssue issue) {
    Customer customer = customers.get(issue.customerId());
    history.record(
        actor,
        action,
        "report",
        "%s %s edition %d".formatted(customer.code(), issue.month(), issue.edition()),
        customer.id(),
        null,
        null);
  }

  /**
   * Writes the report that is due under a plan and, unless it is held, decides to send it: all in
   * one transaction, so that a killed node leaves either everything or nothing.
   *
   * @return what was done, in words for the log
   */
  @Transactional
  public String prepareDue(long customerId, YearMonth month) {
    ReportPlan plan = plans.get(customerId);
    if (!plan.active() || issues.findNewest(customerId, month).isPresent()) {
      return "nothing to do";
    }
    if (!writer.hasSystems(customerId)) {
      return "no systems to report on";
    }
    Actor actor = Actor.system("report plan");
    ReportIssue draft;
    try {
      draft = write(plan, month, 1, ReportIssue.Status.DRAFT, actor);
    } catch (DuplicateKeyException e) {
      // another node was there first; its report stands, ours is rolled back
      throw new ReportException("another node wrote the report of " + month + " first");
    }
    if (plan.onlyNotable() && !draft.notable()) {
      issues.decide(draft.id(), draft.digest(), ReportIssue.Status.SKIPPED, actor.name());
      return "nothing to say";
    }
    if (plan.held() || customers.get(customerId).details().reportEmails().isEmpty()) {
      return "held";
    }
    approve(draft.id(), draft.digest(), actor);
    return "sent";
  }

  private ReportIssue write(
      ReportPlan plan, YearMonth month, int edition, ReportIssue.Status status, Actor actor) {
    ReportOrder order = order(plan, month, edition, null, null);
    Rendered rendered = renderer.render(order, writer.write(order));
    return issues.get(issues.add(order, edition, rendered, status, actor.name()));
  }

  private ReportOrder order(
      ReportPlan plan, YearMonth month, int edition, @Nullable String note, @Nullable String by) {
    Customer customer = customers.get(plan.customerId());
    // stored to the microsecond, and the PDF carries the second
    Instant now = clock.instant().truncatedTo(ChronoUnit.SECONDS);
    return new ReportOrder(
        customer.id(),
        customer.details(),
        month,
        plan.units(),
        plan.language(),
        plan.zone(),
        issues.countSent(customer.id(), month) == 0 ? 1 : edition,
        issues.findLastSent(customer.id()).orElse(null),
        now,
        note == null || note.isBlank() ? null : note.strip(),
        by == null || by.isBlank() ? null : by.strip());
  }

  private ReportIssue draft(long issueId) {
    ReportIssue issue = issues.get(issueId);
    if (issue.status() != ReportIssue.Status.DRAFT) {
      throw new ReportException("the report was decided on already: " + issue.status().code());
    }
    return issue;
  }

  /** Whether any edition of a month was written. */
  @Transactional(readOnly = true)
  boolean isWritten(long customerId, YearMonth month) {
    return issues.findNewest(customerId, month).isPresent();
  }

  /** The report with a key. */
  @Transactional(readOnly = true)
  public Optional<ReportIssue> find(long issueId) {
    return issues.find(issueId);
  }

  /** All that is sent of a report. */
  @Transactional(readOnly = true)
  public ReportCopy getCopy(long issueId) {
    return issues.getCopy(issueId);
  }

  /** A customer's reports, newest month and edition first. */
  @Transactional(readOnly = true)
  public List<ReportIssue> list(long customerId) {
    return issues.list(customerId);
  }

  /** Drafts that wait for somebody to look at them, oldest first. */
  @Transactional(readOnly = true)
  public List<ReportIssue> listHeld() {
    return issues.listDrafts();
  }

  /** The newest report of each of some customers that has one, by customer. */
  @Transactional(readOnly = true)
  public Map<Long, ReportIssue> listNewest(Collection<Long> customerIds) {
    return issues.listNewest(customerIds).stream()
        .collect(Collectors.toMap(ReportIssue::customerId, issue -> issue));
  }
}
