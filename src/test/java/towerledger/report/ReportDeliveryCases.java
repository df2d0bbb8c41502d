package towerledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.Message;
import jakarta.mail.Multipart;
import jakarta.mail.Part;
import jakarta.mail.internet.MimeMessage;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Properties;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mail.javamail.JavaMailSenderImpl;
import towerledger.SignedIn;
import towerledger.account.Actor;
import towerledger.account.EmailAddress;
import towerledger.account.UnitPreference;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;
import towerledger.report.delivery.BounceMailbox;
import towerledger.report.delivery.Courier;
import towerledger.report.delivery.MailSettings;
import towerledger.report.delivery.Outbox;
import towerledger.report.delivery.Relay;
import towerledger.report.delivery.ScriptedRelay;

/** Reports from draft to mailbox: what arrives, what does not, and what is tried again. */
abstract class ReportDeliveryCases {

  private static final YearMonth MONTH = YearMonth.of(2026, 10);
  private static final Actor OFFICE = new Actor("office@ledger.test", "test");
  private static final MailSettings SETTINGS =
      new MailSettings(
          "reports@contractor.example",
          "Bäcker & Söhne Kühlung",
          "office@contractor.example",
          "https://ledger.example",
          null);

  @Autowired ApplicationContext context;
  @Autowired Reports reports;
  @Autowired ReportPlans plans;
  @Autowired Deliveries deliveries;
  @Autowired Leavers leavers;
  @Autowired PastReports past;
  @Autowired Outbox outbox;
  @Autowired JdbcClient jdbc;
  @Autowired SignedIn signedIn;

  private GreenMail mailbox;

  @BeforeEach
  void openTheMailbox() {
    mailbox = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    mailbox.start();
  }

  @AfterEach
  void closeTheMailbox() {
    mailbox.stop();
  }

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
  void waitsWhileTheRelayIsDownAndLetsItRest() {
    ReportIssue sent = approved(months("RD-DOWN", "zoe@down.example;kurt@down.example"));
    int port = mailbox.getSmtp().getPort();
    mailbox.stop();
    Courier courier = courier(port);
    List<ReportMail> mails = deliveries.list(sent.id());

    var first = courier.carry(mails.get(0).id());
    var second = courier.carry(mails.get(1).id());

    assertThat(first).isPresent();
    assertThat(Duration.between(Instant.now(), first.get())).isLessThan(Duration.ofMinutes(1));
    assertThat(second).as("not even tried while the relay rests").isPresent();
    List<ReportMail> waiting = deliveries.list(sent.id());
    assertThat(waiting).allMatch(mail -> mail.status() == ReportMail.Status.WAITING);
    assertThat(waiting.get(0).log()).hasSize(1);
    assertThat(waiting.get(1).log()).isEmpty();
    assertThat(waiting.get(0).attempts()).as("nothing was said of this mail").isZero();
  }

  @Test
  void givesUpOnARelayThatDoesNotAnswer() {
    ReportIssue sent = approved(months("RD-SLOW", "zoe@slow.example"));
    try (ScriptedRelay slow = new ScriptedRelay().pause(5_000)) {
      var again = courier(slow.port(), Clock.systemUTC()).carry(onlyMail(sent).id());

      assertThat(again).isPresent();
      assertThat(onlyMail(sent).status()).isEqualTo(ReportMail.Status.WAITING);
      assertThat(slow.taken()).isEmpty();
    }
  }

  @Test
  void stopsAtARefusalAndTellsTheOffice() {
    ReportIssue sent = approved(months("RD-NO", "gone@no.example;kurt@no.example"));
    try (ScriptedRelay relay =
        new ScriptedRelay().answer("gone@no.example", "550 5.1.1 no such mailbox")) {
      carryAll(courier(relay.port(), Clock.systemUTC()), sent);

      assertThat(relay.taken()).containsExactly("kurt@no.example");
    }
    ReportMail refused = mailTo(sent, "gone@no.example");
    assertThat(refused.status()).isEqualTo(ReportMail.Status.REFUSED);
    assertThat(refused.answer()).contains("550 5.1.1 no such mailbox");
    assertThat(deliveries.listTroubles()).extracting(ReportMail::id).contains(refused.id());
    deliveries.note(refused.id(), OFFICE);
    assertThat(deliveries.listTroubles()).extracting(ReportMail::id).doesNotContain(refused.id());
    assertThat(deliveries.retry(refused.id(), OFFICE)).isTrue();
    assertThat(mailTo(sent, "gone@no.example").messageId()).isEqualTo(refused.messageId());
  }

  @Test
  void triesAgainWithLongerRestsAndGivesUpAfterFiveDays() {
    ReportIssue sent = approved(months("RD-LATER", "full@later.example"));
    ReportMail mail = onlyMail(sent);
    try (ScriptedRelay relay =
        new ScriptedRelay().answer("full@later.example", "452 4.2.2 mailbox full")) {
      Instant now = Instant.now().truncatedTo(ChronoUnit.SECONDS);
      List<Long> minutes = new ArrayList<>();
      for (int attempt = 0; attempt < 4; attempt++) {
        Instant again =
            courier(relay.port(), Clock.fixed(now, ZoneOffset.UTC)).carry(mail.id()).orElseThrow();
        minutes.add(Duration.between(now, again).toMinutes());
        now = again;
      }
      assertThat(minutes).containsExactly(1L, 5L, 15L, 60L);

      Clock later = Clock.fixed(now.plus(Duration.ofDays(6)), ZoneOffset.UTC);
      assertThat(courier(relay.port(), later).carry(mail.id())).isEmpty();
    }
    assertThat(onlyMail(sent).status()).isEqualTo(ReportMail.Status.EXPIRED);
    assertThat(onlyMail(sent).log()).hasSize(5);
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

  @Test
  void marksWhatComesBack() throws Exception {
    ReportIssue sent = approved(months("RD-BACK", "gone@back.example"));
    carryAll(courier(mailbox.getSmtp().getPort()), sent);
    String messageId = onlyMail(sent).messageId();
    GreenMail bounces = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_IMAP));
    bounces.start();
    try {
      var user = bounces.setUser("bounces@contractor.example", "bounces", "secret");
      // the form of RFC 3464, appendix E.1
      user.deliver(
          GreenMailUtil.newMimeMessage(
              """
              From: Mail Delivery Subsystem <MAILER-DAEMON@relay.example>
              To: bounces@contractor.example
              Subject: Returned mail
              MIME-Version: 1.0
              Content-Type: multipart/report; report-type=delivery-status; boundary="b"

              --b

              Your message could not be delivered.

              --b
              Content-Type: message/delivery-status

              Reporting-MTA: dns; relay.example

              Final-Recipient: rfc822; gone@back.example
              Action: failed
              Status: 5.1.1
              Diagnostic-Code: smtp; 550 no such mailbox

              --b
              Content-Type: text/rfc822-headers

              From: reports@contractor.example
              Message-ID: %s

              --b--
              """
                  .formatted(messageId)
                  .replace("\n", "\r\n")));
      user.deliver(
          GreenMailUtil.newMimeMessage(
              "From: zoe@back.example\r\nSubject: thank you\r\n\r\nA person wrote this.\r\n"));
      var settings =
          new MailSettings.Bounces(
              "bounces@contractor.example",
              "127.0.0.1",
              bounces.getImap().getPort(),
              "bounces",
              "secret",
              null,
              false);

      assertThat(new BounceMailbox(settings, outbox).read()).isEqualTo(1);
      assertThat(new BounceMailbox(settings, outbox).read()).as("once is enough").isZero();
      assertThat(settings.toString()).doesNotContain("secret");
    } finally {
      bounces.stop();
    }
    assertThat(onlyMail(sent).status()).isEqualTo(ReportMail.Status.BOUNCED);
    assertThat(onlyMail(sent).answer()).contains("550 no such mailbox");
    assertThat(deliveries.listTroubles()).extracting(ReportMail::id).contains(onlyMail(sent).id());
  }

  @Test
  void saysWhatIsMissingWithoutARelay() {
    assertThat(deliveries.missingSetting())
        .as("tests name no sender")
        .contains("towerledger.mail.from");
    assertThat(new Relay(null, SETTINGS, Clock.systemUTC()).missing()).contains("spring.mail.host");
    ReportIssue sent = approved(months("RD-UNSET", "zoe@unset.example"));
    Courier courier =
        new Courier(
            outbox, new Relay(null, SETTINGS, Clock.systemUTC()), SETTINGS, Clock.systemUTC());

    assertThat(courier.carry(onlyMail(sent).id())).as("it waits").isPresent();
    assertThat(onlyMail(sent).status()).isEqualTo(ReportMail.Status.WAITING);
  }

  private InventedMonths months(String code, String emails) {
    InventedMonths months =
        new InventedMonths(context, code, "Hôpital " + code, "Zoë Ångström", emails);
    return months.write(MONTH, Kind.BAD, InventedMonths.instant(MONTH.plusMonths(1), 11), "first");
  }

  private ReportIssue approved(InventedMonths months) {
    ReportIssue draft = reports.prepare(months.customerId(), MONTH, OFFICE);
    return reports.approve(draft.id(), draft.digest(), OFFICE);
  }

  private void plan(InventedMonths months, boolean held, boolean onlyNotable) {
    ReportPlan plan =
        new ReportPlan(
            months.customerId(),
            true,
            12,
            7,
            ZoneId.of("America/Chicago"),
            "en",
            UnitPreference.US,
            onlyNotable,
            held,
            "Ines Falk",
            null,
            Instant.EPOCH);
    String email =
        jdbc.sql("SELECT report_emails FROM account_customer WHERE id = ?")
            .param(months.customerId())
            .query(String.class)
            .single();
    plans.put(plan, List.of(EmailAddress.of(email)), OFFICE);
  }

  private ReportIssue only(InventedMonths months) {
    List<ReportIssue> issues = reports.list(months.customerId());
    assertThat(issues).hasSize(1);
    return issues.get(0);
  }

  private ReportMail onlyMail(ReportIssue issue) {
    List<ReportMail> mails = deliveries.list(issue.id());
    assertThat(mails).hasSize(1);
    return mails.get(0);
  }

  private ReportMail mailTo(ReportIssue issue, String recipient) {
    return deliveries.list(issue.id()).stream()
        .filter(mail -> mail.recipient().equals(recipient))
        .findFirst()
        .orElseThrow();
  }

  private void carryAll(Courier courier, ReportIssue issue) {
    deliveries.list(issue.id()).forEach(mail -> courier.carry(mail.id()));
  }

  private Courier courier(int port) {
    return courier(port, Clock.systemUTC());
  }

  private Courier courier(int port, Clock clock) {
    var sender = new JavaMailSenderImpl();
    sender.setHost("127.0.0.1");
    sender.setPort(port);
    var properties = new Properties();
    properties.put("mail.smtp.connectiontimeout", "2000");
    properties.put("mail.smtp.timeout", "1000");
    sender.setJavaMailProperties(properties);
    return new Courier(outbox, new Relay(sender, SETTINGS, clock), SETTINGS, clock);
  }

  private static String header(MimeMessage message, String name) {
    try {
      return message.getHeader(name)[0];
    } catch (jakarta.mail.MessagingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String type(Part part) {
    try {
      return part.getContentType().replaceAll("[; ].*", "").toLowerCase(java.util.Locale.ROOT);
    } catch (jakarta.mail.MessagingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String text(Part part) throws Exception {
    return (String) part.getContent();
  }

  private static List<Part> parts(Part part) throws Exception {
    if (part.getContent() instanceof Multipart multipart) {
      List<Part> parts = new ArrayList<>();
      for (int i = 0; i < multipart.getCount(); i++) {
        parts.addAll(parts(multipart.getBodyPart(i)));
      }
      return parts;
    }
    return List.of(part);
  }
}
