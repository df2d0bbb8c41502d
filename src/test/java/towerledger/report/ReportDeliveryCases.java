package towerledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.icegreen.greenmail.util.GreenMailUtil;
import jakarta.mail.Message;
import jakarta.mail.Part;
import jakarta.mail.internet.MimeMessage;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;
import towerledger.report.delivery.Courier;

/** Reports from draft to mailbox: what arrives, with whom, and what a repeat looks like. */
abstract class ReportDeliveryCases extends ReportMailCases {

  @Test
  void sendsEachRecipientAMessageOfTheirOwn() throws Exception {
    InventedMonths months = months("RD-OWN", "zoe@own.example;kurt@own.example");
    ReportIssue sent = approved(months);

    carryAll(courier(mailbox.getSmtp().getPort()), sent);

    MimeMessage[] messages = mailbox.getReceivedMessages();
    assertThat(messages).hasSize(2);
    assertThat(Arrays.stream(messages).map(m -> header(m, "Message-ID"))).doesNotHaveDuplicates();
    for (MimeMessage message : messages) {
      assertThat(message.getAllRecipients()).hasSize(1);
      String to = message.getAllRecipients()[0].toString();
      String other = to.startsWith("zoe") ? "kurt@own.example" : "zoe@own.example";
      assertThat(GreenMailUtil.getWholeMessage(message)).contains(to).doesNotContain(other);
      assertThat(message.getRecipients(Message.RecipientType.CC)).isNull();
      assertThat(message.getSubject())
          .isEqualTo(
              "Hôpital RD-OWN: cooling water in October 2026, 45,200 gal wasted, about $582");
      assertThat(message.getFrom()[0].toString()).contains("reports@contractor.example");
      assertThat(((jakarta.mail.internet.InternetAddress) message.getFrom()[0]).getPersonal())
          .isEqualTo("Bäcker & Söhne Kühlung");
      assertThat(header(message, "List-Unsubscribe"))
          .matches("<https://ledger\\.example/unsubscribe/[0-9a-f]{40}>");
      assertThat(header(message, "List-Unsubscribe-Post")).isEqualTo("List-Unsubscribe=One-Click");
      assertThat(header(message, "Auto-Submitted")).isEqualTo("auto-generated");
      assertThat(header(message, "Message-ID")).matches("<report-\\d+\\.[0-9a-f]{16}@[a-z.-]+>");
      assertThat(GreenMailUtil.getHeaders(message))
          .as("heads are ASCII (RFC 5322)")
          .matches("\\p{ASCII}*");
    }
    assertThat(deliveries.list(sent.id()))
        .allSatisfy(mail -> assertThat(mail.status()).isEqualTo(ReportMail.Status.ACCEPTED));
  }

  @Test
  void sendsWhatThePreviewShows() throws Exception {
    InventedMonths months = months("RD-SEEN", "zoe@seen.example");
    ReportIssue draft = reports.prepare(months.customerId(), MONTH, OFFICE);
    draft = reports.annotate(draft.id(), "Grüße aus Łódź.", "Ines Falk", OFFICE);
    ReportCopy seen = reports.getCopy(draft.id());
    reports.approve(draft.id(), draft.digest(), OFFICE);

    carryAll(courier(mailbox.getSmtp().getPort()), draft);

    List<Part> parts = parts(mailbox.getReceivedMessages()[0]);
    assertThat(parts.stream().map(ReportDeliveryCases::type))
        .containsExactly("text/plain", "text/html", "image/png", "application/pdf", "text/csv");
    String link =
        header(mailbox.getReceivedMessages()[0], "List-Unsubscribe").replaceAll("[<>]", "");
    assertThat(text(parts.get(0)))
        .isEqualTo(
            seen.plain()
                .replace("\n", "\r\n")
                .replace(ReportCopy.RECIPIENT, "zoe@seen.example")
                .replace(ReportCopy.LEAVE, link));
    assertThat(text(parts.get(0))).contains("Grüße aus Łódź.");
    assertThat(text(parts.get(1)))
        .isEqualToNormalizingNewlines(
            seen.html()
                .replace(ReportCopy.RECIPIENT, "zoe@seen.example")
                .replace(ReportCopy.LEAVE, link));
    assertThat(parts.get(1).getContent().toString()).contains(ReportCopy.PICTURE);
    assertThat(parts.get(2).getHeader("Content-ID")[0])
        .isEqualTo("<" + ReportCopy.PICTURE.substring("cid:".length()) + ">");
    assertThat(parts.get(2).getInputStream().readAllBytes()).isEqualTo(seen.picture());
    assertThat(parts.get(3).getInputStream().readAllBytes()).isEqualTo(seen.pdf());
    assertThat(parts.get(3).getFileName()).isEqualTo("tower-water-2026-10-RD-SEEN.pdf");
    assertThat(new String(parts.get(4).getInputStream().readAllBytes(), StandardCharsets.UTF_8))
        .isEqualTo(seen.csv());
  }

  @Test
  void sendsNoDraftThatChangedSinceItWasSeen() {
    InventedMonths months = months("RD-CHANGED", "zoe@changed.example");
    ReportIssue seen = reports.prepare(months.customerId(), MONTH, OFFICE);
    reports.annotate(seen.id(), "Somebody else’s words", null, OFFICE);

    assertThatThrownBy(() -> reports.approve(seen.id(), seen.digest(), OFFICE))
        .isInstanceOf(ReportException.class)
        .hasMessageContaining("look at it again");
    assertThat(deliveries.list(seen.id())).isEmpty();
  }

  @Test
  void decidesAndQueuesInOneTransaction() {
    InventedMonths months = months("RD-ONE", "zoe@one.example");
    ReportIssue draft = reports.prepare(months.customerId(), MONTH, OFFICE);
    List<Long> queued = new ArrayList<>();

    new TransactionTemplate(context.getBean(PlatformTransactionManager.class))
        .executeWithoutResult(
            transaction -> {
              reports.approve(draft.id(), draft.digest(), OFFICE);
              queued.add(onlyMail(draft).id());
              assertThat(tasksOf(queued.get(0))).isEqualTo(1);
              transaction.setRollbackOnly();
            });

    assertThat(tasksOf(queued.get(0))).as("undone with the decision").isZero();
    assertThat(only(months).status()).isEqualTo(ReportIssue.Status.DRAFT);
    assertThat(deliveries.list(draft.id())).isEmpty();
  }

  private long tasksOf(long mailId) {
    return jdbc.sql("SELECT COUNT(*) FROM report_task WHERE task_instance = ?")
        .param(Long.toString(mailId))
        .query(Long.class)
        .single();
  }

  @Test
  void repeatsTheSameMessageAfterACrash() throws Exception {
    ReportIssue sent = approved(months("RD-TWICE", "zoe@twice.example"));
    Courier courier = courier(mailbox.getSmtp().getPort());
    carryAll(courier, sent);

    // the relay took it, and the node died before it wrote that down
    jdbc.sql("UPDATE report_mail SET status = 'waiting', settled_at = NULL WHERE issue_id = ?")
        .param(sent.id())
        .update();
    carryAll(courier, sent);

    MimeMessage[] messages = mailbox.getReceivedMessages();
    assertThat(messages).hasSize(2);
    assertThat(header(messages[1], "Message-ID")).isEqualTo(header(messages[0], "Message-ID"));
    assertThat(GreenMailUtil.getBody(messages[1])).isEqualTo(GreenMailUtil.getBody(messages[0]));
    assertThat(header(messages[1], "Date")).isEqualTo(header(messages[0], "Date"));
  }

  @Test
  void neverSendsToAnotherCustomersAddress() throws Exception {
    ReportIssue one = approved(months("RD-A", "shared@both.example;a@a.example"));
    ReportIssue two = approved(months("RD-B", "shared@both.example;b@b.example"));
    Courier courier = courier(mailbox.getSmtp().getPort());
    carryAll(courier, one);
    carryAll(courier, two);

    for (MimeMessage message : mailbox.getReceivedMessages()) {
      String whole = GreenMailUtil.getWholeMessage(message);
      if (whole.contains("To: a@a.example")) {
        assertThat(message.getSubject()).contains("RD-A");
      }
      if (whole.contains("To: b@b.example")) {
        assertThat(message.getSubject()).contains("RD-B");
      }
    }
    assertThat(mailbox.getReceivedMessages()).hasSize(4);
    assertThatThrownBy(
            () ->
                jdbc.sql(
                        """
                        INSERT INTO report_mail (issue_id, customer_id, recipient, message_id,
                          leave_token, status, created_at)
                        VALUES (?, ?, 'b@b.example', '<x@y>', 'x', 'waiting', CURRENT_TIMESTAMP)""")
                    .params(one.id(), two.customerId())
                    .update())
        .as("the database knows no mail of one customer's report to another")
        .isInstanceOf(DataIntegrityViolationException.class);
  }

  @Test
  void leavesAloneWhoAsksForIt() {
    InventedMonths months = months("RD-LEAVE", "zoe@leave.example;kurt@leave.example");
    ReportIssue sent = approved(months);
    String token =
        jdbc.sql("SELECT leave_token FROM report_mail WHERE issue_id = ? AND recipient LIKE 'zoe%'")
            .param(sent.id())
            .query(String.class)
            .single();

    assertThat(leavers.leave(token, "one-click")).isTrue();
    assertThat(leavers.leave(token, "one-click")).as("twice is once").isTrue();
    carryAll(courier(mailbox.getSmtp().getPort()), sent);

    assertThat(mailbox.getReceivedMessages()).hasSize(1);
    assertThat(leavers.list(months.customerId())).containsExactly("zoe@leave.example");
    ReportIssue next = reports.prepare(months.customerId(), MONTH, OFFICE);
    reports.approve(next.id(), next.digest(), OFFICE);
    assertThat(deliveries.list(next.id()))
        .filteredOn(mail -> mail.recipient().startsWith("zoe"))
        .singleElement()
        .satisfies(mail -> assertThat(mail.status()).isEqualTo(ReportMail.Status.LEFT));
    assertThat(leavers.leave("no such link", "link")).isFalse();
  }

  @Test
  void holdsSendsOrPassesOverAsThePlanSays() {
    InventedMonths held = months("RD-HELD", "zoe@held.example");
    plan(held, true, false);
    InventedMonths direct = months("RD-DIRECT", "zoe@direct.example");
    plan(direct, false, false);
    InventedMonths quiet =
        new InventedMonths(context, "RD-QUIET", "Quiet", "Zoë", "zoe@quiet.example").history(MONTH);
    quiet.write(MONTH, Kind.GOOD, InventedMonths.instant(MONTH.plusMonths(1), 11), "first");
    plan(quiet, false, true);

    assertThat(reports.prepareDue(held.customerId(), MONTH)).isEqualTo("held");
    assertThat(reports.prepareDue(direct.customerId(), MONTH)).isEqualTo("sent");
    assertThat(reports.prepareDue(direct.customerId(), MONTH)).isEqualTo("nothing to do");
    assertThat(reports.prepareDue(quiet.customerId(), MONTH)).isEqualTo("nothing to say");

    assertThat(only(held).status()).isEqualTo(ReportIssue.Status.DRAFT);
    assertThat(only(direct).status()).isEqualTo(ReportIssue.Status.APPROVED);
    assertThat(deliveries.list(only(direct).id())).hasSize(1);
    assertThat(only(quiet).status()).isEqualTo(ReportIssue.Status.SKIPPED);
    assertThat(reports.listHeld()).extracting(ReportIssue::id).contains(only(held).id());
  }

  @Test
  void waitsForMonthsThatAreBeingReckonedButNotForEver() {
    InventedMonths months = months("RD-WAITS", "zoe@waits.example");
    plan(months, true, false);
    long system =
        jdbc.sql("SELECT MIN(id) FROM site_system WHERE customer_id = ?")
            .param(months.customerId())
            .query(Long.class)
            .single();
    Instant due = plans.get(months.customerId()).due(MONTH);
    // a site that no node takes, so that the mark stays
    jdbc.sql(
            """
            INSERT INTO ledger_stale (system_id, site_id, first_month, last_month, reason, marked_at)
            VALUES (?, -7, ?, ?, 'late readings', CURRENT_TIMESTAMP)""")
        .params(system, MONTH.atDay(1), MONTH.atDay(1))
        .update();
    try {
      assertThat(ledger.countUnsettled(months.customerId(), MONTH.minusMonths(1)))
          .as("an earlier month does not hang on it")
          .isZero();
      assertThat(due(due).prepare(months.customerId(), MONTH))
          .contains(due.plus(Duration.ofSeconds(30)));
      assertThat(reports.list(months.customerId())).isEmpty();
      assertThat(due(due.plus(Duration.ofHours(23))).prepare(months.customerId(), MONTH))
          .as("a program that has just come up has its day before it")
          .isPresent();

      var late = new MovingClock(due);
      var patient = new DueReports(reports, plans, ledger, late);
      late.moveTo(due.plus(Duration.ofHours(24)));
      assertThat(patient.prepare(months.customerId(), MONTH)).isEmpty();
      assertThat(reports.getCopy(only(months).id()).plain())
          .containsPattern("still being worked into one system:\\s+figures may change");
    } finally {
      jdbc.sql("DELETE FROM ledger_stale WHERE site_id = -7").update();
    }
    ReportIssue anew = reports.prepare(months.customerId(), MONTH, OFFICE);
    assertThat(reports.getCopy(anew.id()).plain()).doesNotContain("still being worked into");
  }

  private DueReports due(Instant now) {
    return new DueReports(reports, plans, ledger, Clock.fixed(now, ZoneOffset.UTC));
  }

  /** A clock that a test moves. */
  private static final class MovingClock extends Clock {

    private Instant now;

    MovingClock(Instant now) {
      this.now = now;
    }

    void moveTo(Instant then) {
      now = then;
    }

    @Override
    public Instant instant() {
      return now;
    }

    @Override
    public java.time.ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(java.time.ZoneId zone) {
      return this;
    }
  }

  @Test
  void correctsAReportInAnotherEdition() {
    InventedMonths months = months("RD-EDITION", "zoe@edition.example");
    ReportIssue first = approved(months);
    // reports are told apart to the second
    jdbc.sql("UPDATE report_issue SET prepared_at = ? WHERE id = ?")
        .params(java.time.OffsetDateTime.now(ZoneOffset.UTC).minusMinutes(5), first.id())
        .update();
    months.write(MONTH, Kind.GOOD, Instant.now(), "register corrected");

    ReportIssue second = reports.prepare(months.customerId(), MONTH, OFFICE);

    assertThat(second.edition()).isEqualTo(2);
    assertThat(reports.getCopy(second.id()).plain())
        .contains("This corrects the report for October 2026")
        .contains("Reason: register corrected");
    assertThat(reports.getCopy(first.id()).plain()).as("the first stays as sent").contains("582");
  }

  @Test
  void showsCustomersTheirOwnPastReportsAndNobodyElses() {
    InventedMonths mine = months("RD-MINE", "zoe@mine.example");
    ReportIssue sent = approved(mine);
    ReportIssue others = approved(months("RD-OTHERS", "zoe@others.example"));
    var customer = signedIn.customer("reader@mine.example", "RD-MINE");

    assertThat(past.list(customer))
        .extracting(PastReports.PastReport::id)
        .containsExactly(sent.id());
    assertThat(past.findCopy(customer, sent.id())).isPresent();
    assertThat(past.findCopy(customer, others.id())).isEmpty();
    assertThat(past.list(signedIn.technician("tech@mine.example"))).isEmpty();
    assertThat(past.list(signedIn.office()))
        .extracting(PastReports.PastReport::id)
        .contains(sent.id(), others.id());
  }
}
