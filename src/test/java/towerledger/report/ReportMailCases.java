package towerledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.Multipart;
import jakarta.mail.Part;
import jakarta.mail.internet.MimeMessage;
import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.mail.javamail.JavaMailSenderImpl;
import towerledger.SignedIn;
import towerledger.account.Actor;
import towerledger.account.EmailAddress;
import towerledger.account.UnitPreference;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;
import towerledger.ledger.Ledger;
import towerledger.report.delivery.Courier;
import towerledger.report.delivery.MailSettings;
import towerledger.report.delivery.Outbox;
import towerledger.report.delivery.Relay;

/** A mailbox, reports to send to it, and a courier; what tests of the delivery share. */
abstract class ReportMailCases {

  static final YearMonth MONTH = YearMonth.of(2026, 10);
  static final Actor OFFICE = new Actor("office@ledger.test", "test");
  static final MailSettings SETTINGS =
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
  @Autowired Ledger ledger;
  @Autowired JdbcClient jdbc;
  @Autowired SignedIn signedIn;

  GreenMail mailbox;

  @BeforeEach
  void openTheMailbox() {
    mailbox = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    mailbox.start();
  }

  @AfterEach
  void closeTheMailbox() {
    mailbox.stop();
  }

  InventedMonths months(String code, String emails) {
    InventedMonths months =
        new InventedMonths(context, code, "Hôpital " + code, "Zoë Ångström", emails);
    return months.write(MONTH, Kind.BAD, InventedMonths.instant(MONTH.plusMonths(1), 11), "first");
  }

  ReportIssue approved(InventedMonths months) {
    ReportIssue draft = reports.prepare(months.customerId(), MONTH, OFFICE);
    return reports.approve(draft.id(), draft.digest(), OFFICE);
  }

  void plan(InventedMonths months, boolean held, boolean onlyNotable) {
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

  ReportIssue only(InventedMonths months) {
    List<ReportIssue> issues = reports.list(months.customerId());
    assertThat(issues).hasSize(1);
    return issues.get(0);
  }

  ReportMail onlyMail(ReportIssue issue) {
    List<ReportMail> mails = deliveries.list(issue.id());
    assertThat(mails).hasSize(1);
    return mails.get(0);
  }

  ReportMail mailTo(ReportIssue issue, String recipient) {
    return deliveries.list(issue.id()).stream()
        .filter(mail -> mail.recipient().equals(recipient))
        .findFirst()
        .orElseThrow();
  }

  void carryAll(Courier courier, ReportIssue issue) {
    deliveries.list(issue.id()).forEach(mail -> courier.carry(mail.id()));
  }

  Courier courier(int port) {
    return courier(port, Clock.systemUTC());
  }

  Courier courier(int port, Clock clock) {
    return new Courier(outbox, new Relay(sender(port), SETTINGS, clock), SETTINGS, clock);
  }

  static JavaMailSenderImpl sender(int port) {
    var sender = new JavaMailSenderImpl();
    sender.setHost("127.0.0.1");
    sender.setPort(port);
    var properties = new Properties();
    properties.put("mail.smtp.connectiontimeout", "2000");
    properties.put("mail.smtp.timeout", "1000");
    sender.setJavaMailProperties(properties);
    return sender;
  }

  static String header(MimeMessage message, String name) {
    try {
      return message.getHeader(name)[0];
    } catch (jakarta.mail.MessagingException e) {
      throw new IllegalStateException(e);
    }
  }

  static String type(Part part) {
    try {
      return part.getContentType().replaceAll("[; ].*", "").toLowerCase(java.util.Locale.ROOT);
    } catch (jakarta.mail.MessagingException e) {
      throw new IllegalStateException(e);
    }
  }

  static String text(Part part) throws Exception {
    return (String) part.getContent();
  }

  static List<Part> parts(Part part) throws Exception {
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
