package towerledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.context.MessageSource;
import towerledger.report.delivery.BounceMailbox;
import towerledger.report.delivery.Courier;
import towerledger.report.delivery.MailSettings;
import towerledger.report.delivery.OfficeNotices;
import towerledger.report.delivery.Relay;
import towerledger.report.delivery.ScriptedRelay;

/** What the courier does when a relay is down, slow or refuses, and when a mail comes back. */
abstract class RelayTroubleCases extends ReportMailCases {

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
  void tellsTheOfficeOnceByMailOfWhatDidNotArrive() throws Exception {
    ReportIssue sent = approved(months("RD-NOTICE", "gone@notice.example;kurt@notice.example"));
    try (ScriptedRelay relay =
        new ScriptedRelay().answer("gone@notice.example", "550 5.1.1 no such mailbox")) {
      carryAll(courier(relay.port(), Clock.systemUTC()), sent);
    }
    var notices =
        new OfficeNotices(
            outbox,
            new Relay(sender(mailbox.getSmtp().getPort()), SETTINGS, Clock.systemUTC()),
            SETTINGS,
            context.getBean(MessageSource.class));

    notices.send();

    List<MimeMessage> told = noticesOf("RD-NOTICE");
    assertThat(told).hasSize(1);
    assertThat(told.get(0).getAllRecipients()[0].toString()).isEqualTo("office@contractor.example");
    assertThat(told.get(0).getSubject()).contains("did not arrive");
    assertThat(text(told.get(0)))
        .contains("2026-10, to gone@notice.example: refused by the mail relay. 550 5.1.1")
        .contains("https://ledger.example/reports")
        .doesNotContain("kurt@notice.example");
    notices.send();
    assertThat(noticesOf("RD-NOTICE")).as("told once").hasSize(1);
    deliveries.retry(mailTo(sent, "gone@notice.example").id(), OFFICE);
    try (ScriptedRelay relay =
        new ScriptedRelay().answer("gone@notice.example", "550 5.1.1 still none")) {
      carryAll(courier(relay.port(), Clock.systemUTC()), sent);
    }
    notices.send();
    assertThat(noticesOf("RD-NOTICE")).as("a new refusal is told anew").hasSize(2);
  }

  private List<MimeMessage> noticesOf(String code) {
    return Arrays.stream(mailbox.getReceivedMessages())
        .filter(message -> GreenMailUtil.getBody(message).contains(code))
        .toList();
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
    assertThat(new Relay(null, SETTINGS, Clock.systemUTC()).missing()).contains("SPRING_MAIL_HOST");
    ReportIssue sent = approved(months("RD-UNSET", "zoe@unset.example"));
    Courier courier =
        new Courier(
            outbox, new Relay(null, SETTINGS, Clock.systemUTC()), SETTINGS, Clock.systemUTC());

    assertThat(courier.carry(onlyMail(sent).id())).as("it waits").isPresent();
    assertThat(onlyMail(sent).status()).isEqualTo(ReportMail.Status.WAITING);
  }
}
