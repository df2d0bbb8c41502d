package towerledger.report.delivery;

import jakarta.mail.MessagingException;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.io.UnsupportedEncodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.MessageSource;
import towerledger.account.SmtpAnswer;
import towerledger.wording.Words;

/**
 * Tells the office by mail of reports that did not arrive: one message an address for all that came
 * up since the last round. It goes to where the answers of that customer go; without such an
 * address the list on the page of reports is the only notice. A node that dies between the relay's
 * word and ours tells it twice.
 */
public final class OfficeNotices {

  private static final Logger log = LoggerFactory.getLogger(OfficeNotices.class);

  /** The notice names so many; the page lists them all. */
  private static final int MOST_NAMED = 50;

  private final Outbox outbox;
  private final Relay relay;
  private final MailSettings settings;
  private final Words words;

  public OfficeNotices(Outbox outbox, Relay relay, MailSettings settings, MessageSource messages) {
    this.outbox = outbox;
    this.relay = relay;
    this.settings = settings;
    this.words = new Words(messages, Locale.ENGLISH);
  }

  /** Sends what has not been told yet. */
  public void send() {
    if (!relay.isSet() || relay.restsUntil().isPresent()) {
      return;
    }
    Map<String, List<Outbox.Trouble>> byAddress = new TreeMap<>();
    for (Outbox.Trouble trouble : outbox.listUntold()) {
      String address = trouble.replyTo() == null ? settings.replyTo() : trouble.replyTo();
      if (address != null && !address.equalsIgnoreCase(trouble.recipient())) {
        byAddress.computeIfAbsent(address, any -> new ArrayList<>()).add(trouble);
      }
    }
    byAddress.forEach(this::tell);
  }

  private void tell(String address, List<Outbox.Trouble> troubles) {
    SmtpAnswer answer = relay.send(message(address, troubles));
    switch (answer.kind()) {
      case ACCEPTED -> outbox.told(troubles);
      case REFUSED -> {
        log.warn(
            "the relay refused the notice of {} reports that did not arrive: {}",
            troubles.size(),
            answer.text());
        outbox.told(troubles);
      }
      case LATER, NO_RELAY -> log.info("a notice to the office waits: {}", answer.text());
    }
  }

  private MimeMessage message(String address, List<Outbox.Trouble> troubles) {
    try {
      MimeMessage message = new MimeMessage(relay.session());
      message.setFrom(
          new InternetAddress(settings.from(), settings.fromName(), StandardCharsets.UTF_8.name()));
      message.setRecipient(MimeMessage.RecipientType.TO, new InternetAddress(address));
      message.setSubject(
          words.of("report.notice.subject", troubles.size()), StandardCharsets.UTF_8.name());
      message.setHeader("Auto-Submitted", "auto-generated");
      message.setText(text(troubles), StandardCharsets.UTF_8.name());
      message.saveChanges();
      return message;
    } catch (MessagingException | UnsupportedEncodingException e) {
      throw new IllegalStateException("the notice to " + address + " could not be written", e);
    }
  }

  private String text(List<Outbox.Trouble> troubles) {
    StringBuilder text = new StringBuilder(words.of("report.notice.intro")).append("\n\n");
    for (Outbox.Trouble trouble : troubles.subList(0, Math.min(MOST_NAMED, troubles.size()))) {
      text.append("- ")
          .append(
              words.of(
                  "report.notice.one",
                  trouble.customer(),
                  trouble.month().toString(),
                  trouble.recipient(),
                  words.of("report.notice." + trouble.status()),
                  trouble.answer()))
          .append('\n');
    }
    if (troubles.size() > MOST_NAMED) {
      text.append(words.of("report.notice.more", troubles.size() - MOST_NAMED)).append('\n');
    }
    text.append('\n').append(words.of("report.notice.next")).append('\n');
    if (settings.publicUrl() != null) {
      text.append(settings.publicUrl()).append("/reports\n");
    }
    return text.toString();
  }
}
