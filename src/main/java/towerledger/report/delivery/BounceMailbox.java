package towerledger.report.delivery;

import jakarta.mail.Flags;
import jakarta.mail.Folder;
import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.Multipart;
import jakarta.mail.Part;
import jakarta.mail.Session;
import jakarta.mail.Store;
import jakarta.mail.internet.InternetHeaders;
import jakarta.mail.search.FlagTerm;
import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;
import java.util.Properties;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Reads the mailbox that undeliverable mail comes back to, and marks the mails it speaks of. Only
 * delivery status notifications are understood (RFC 3464, failed ones); anything else is left
 * unread for people.
 */
public final class BounceMailbox {

  private static final Logger log = LoggerFactory.getLogger(BounceMailbox.class);
  private static final String TIMEOUT_MILLIS = "20000";

  private final MailSettings.Bounces settings;
  private final Outbox outbox;

  public BounceMailbox(MailSettings.Bounces settings, Outbox outbox) {
    this.settings = settings;
    this.outbox = outbox;
  }

  /**
   * What a notification says.
   *
   * @param messageId name of the message that came back
   * @param words why
   */
  record Bounce(String messageId, String words) {}

  /**
   * Reads what is unread.
   *
   * @return how many mails were marked as come back
   */
  public int read() {
    String protocol = settings.isEncrypted() ? "imaps" : "imap";
    Properties properties = new Properties();
    properties.put("mail." + protocol + ".connectiontimeout", TIMEOUT_MILLIS);
    properties.put("mail." + protocol + ".timeout", TIMEOUT_MILLIS);
    properties.put("mail." + protocol + ".ssl.checkserveridentity", "true");
    int marked = 0;
    try (Store store = Session.getInstance(properties).getStore(protocol)) {
      Integer port = settings.port();
      store.connect(
          settings.host(), port == null ? -1 : port, settings.username(), settings.password());
      try (Folder folder = store.getFolder(settings.folderOrInbox())) {
        folder.open(Folder.READ_WRITE);
        for (Message message : folder.search(new FlagTerm(new Flags(Flags.Flag.SEEN), false))) {
          Optional<Bounce> bounce = find(message);
          boolean known =
              bounce.isPresent() && outbox.bounce(bounce.get().messageId(), bounce.get().words());
          message.setFlag(Flags.Flag.SEEN, bounce.isPresent());
          marked += known ? 1 : 0;
        }
      }
    } catch (MessagingException | IOException e) {
      // tried again in a while; the mails themselves are not touched by this
      log.warn("the bounce mailbox at {} could not be read", settings.host(), e);
    }
    return marked;
  }

  /** The failure a message tells of; empty when it is no such notification. */
  static Optional<Bounce> find(Part message) throws MessagingException, IOException {
    if (!message.isMimeType("multipart/report")
        || !(message.getContent() instanceof Multipart parts)) {
      return Optional.empty();
    }
    String words = null;
    String messageId = null;
    for (int i = 0; i < parts.getCount(); i++) {
      Part part = parts.getBodyPart(i);
      if (part.isMimeType("message/delivery-status")) {
        words = failure(part);
      } else if (part.isMimeType("message/rfc822")
          && part.getContent() instanceof jakarta.mail.internet.MimeMessage returned) {
        messageId = returned.getMessageID();
      } else if (part.isMimeType("text/rfc822-headers")) {
        try (InputStream in = part.getInputStream()) {
          messageId = first(new InternetHeaders(in), "Message-ID");
        }
      }
    }
    return words == null || messageId == null
        ? Optional.empty()
        : Optional.of(new Bounce(messageId.strip(), words));
  }

  /** Words of the first recipient that failed for good; null when none did. */
  private static @Nullable String failure(Part part) throws MessagingException, IOException {
    try (InputStream in = part.getInputStream()) {
      // the first block speaks of the message, one more of each recipient (RFC 3464, 2.1)
      new InternetHeaders(in);
      InternetHeaders recipient = new InternetHeaders(in);
      while (recipient.getAllHeaderLines().hasMoreElements()) {
        if ("failed".equalsIgnoreCase(String.valueOf(first(recipient, "Action")).strip())) {
          String diagnosis = first(recipient, "Diagnostic-Code");
          return diagnosis == null ? "status " + first(recipient, "Status") : diagnosis;
        }
        recipient = new InternetHeaders(in);
      }
      return null;
    }
  }

  private static @Nullable String first(InternetHeaders headers, String name) {
    String[] values = headers.getHeader(name);
    return values == null || values.length == 0 ? null : values[0];
  }
}
