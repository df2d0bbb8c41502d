package towerledger.report.delivery;

import jakarta.activation.DataHandler;
import jakarta.mail.BodyPart;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.internet.ContentType;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeBodyPart;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import jakarta.mail.internet.ParameterList;
import jakarta.mail.util.ByteArrayDataSource;
import java.io.UnsupportedEncodingException;
import java.util.Date;
import org.eclipse.angus.mail.smtp.SMTPMessage;
import org.springframework.web.util.HtmlUtils;
import towerledger.report.content.Rendered;

/**
 * Makes the message of one report to one recipient. The same row of the outbox always gives the
 * same bytes: name, date and boundaries come from the row, nothing from the clock.
 */
final class MessageWriter {

  private static final String UTF_8 = "UTF-8";

  private final MailSettings settings;

  MessageWriter(MailSettings settings) {
    this.settings = settings;
  }

  SMTPMessage write(Session session, OutgoingMail mail) {
    try {
      SMTPMessage message =
          new SMTPMessage(session) {
            @Override
            protected void updateMessageID() throws MessagingException {
              setHeader("Message-ID", mail.messageId());
            }
          };
      head(message, mail);
      MimeMultipart mixed = multipart("mixed", mail, "m");
      mixed.addBodyPart(body(mail));
      mixed.addBodyPart(
          attachment(mail.pdf(), "application/pdf", mail.fileName() + ".pdf", mail.subject()));
      mixed.addBodyPart(
          attachment(
              mail.csv().getBytes(java.nio.charset.StandardCharsets.UTF_8),
              "text/csv; charset=UTF-8",
              mail.fileName() + ".csv",
              mail.subject()));
      message.setContent(mixed);
      message.saveChanges();
      return message;
    } catch (MessagingException | UnsupportedEncodingException e) {
      throw new IllegalStateException(
          "report mail %d to %s could not be written".formatted(mail.id(), mail.recipient()), e);
    }
  }

  private void head(SMTPMessage message, OutgoingMail mail)
      throws MessagingException, UnsupportedEncodingException {
    String from = settings.from();
    if (from == null) {
      throw new IllegalStateException("towerledger.mail.from is not set");
    }
    message.setFrom(new InternetAddress(from, settings.fromName(), UTF_8));
    message.setRecipient(MimeMessage.RecipientType.TO, new InternetAddress(mail.recipient()));
    String replyTo = mail.replyTo() == null ? settings.replyTo() : mail.replyTo();
    if (replyTo != null) {
      message.setReplyTo(new InternetAddress[] {new InternetAddress(replyTo)});
    }
    message.setSubject(mail.subject(), UTF_8);
    message.setSentDate(Date.from(mail.decidedAt()));
    message.setHeader("Message-ID", mail.messageId());
    // RFC 3834: nobody's holiday notice is to answer it
    message.setHeader("Auto-Submitted", "auto-generated");
    message.setContentLanguage(new String[] {mail.language()});
    leaving(message, mail);
    settings
        .bounceMailbox()
        .ifPresent(mailbox -> message.setEnvelopeFrom(String.valueOf(mailbox.address())));
  }

  /** RFC 2369 and, where the link is an https address, one click by RFC 8058. */
  private void leaving(SMTPMessage message, OutgoingMail mail) throws MessagingException {
    message.setHeader("List-Unsubscribe", "<" + leaveAddress(mail) + ">");
    if (leaveAddress(mail).startsWith("https://")) {
      message.setHeader("List-Unsubscribe-Post", "List-Unsubscribe=One-Click");
    }
  }

  /** Where somebody goes to be left alone. */
  private String leaveAddress(OutgoingMail mail) {
    if (settings.publicUrl() != null) {
      return settings.publicUrl() + "/unsubscribe/" + mail.leaveToken();
    }
    String to =
        mail.replyTo() != null
            ? mail.replyTo()
            : settings.replyTo() != null ? settings.replyTo() : String.valueOf(settings.from());
    return "mailto:" + to + "?subject=unsubscribe%20" + mail.leaveToken();
  }

  private BodyPart body(OutgoingMail mail) throws MessagingException {
    MimeMultipart alternative = multipart("alternative", mail, "a");
    var plain = new MimeBodyPart();
    plain.setText(filled(mail.plain(), mail, false), UTF_8, "plain");
    plain.setHeader("Content-Transfer-Encoding", "quoted-printable");
    alternative.addBodyPart(plain);
    var html = new MimeBodyPart();
    html.setText(filled(mail.html(), mail, true), UTF_8, "html");
    html.setHeader("Content-Transfer-Encoding", "quoted-printable");
    if (mail.picture().length == 0) {
      alternative.addBodyPart(html);
    } else {
      MimeMultipart related = multipart("related; type=\"text/html\"", mail, "r");
      related.addBodyPart(html);
      var picture = new MimeBodyPart();
      picture.setDataHandler(new DataHandler(new ByteArrayDataSource(mail.picture(), "image/png")));
      picture.setContentID("<" + Rendered.PICTURE_ID + ">");
      picture.setDisposition(MimeBodyPart.INLINE);
      picture.setFileName("where-the-water-went.png");
      picture.setHeader("Content-Transfer-Encoding", "base64");
      related.addBodyPart(picture);
      alternative.addBodyPart(part(related));
    }
    return part(alternative);
  }

  private String filled(String text, OutgoingMail mail, boolean html) {
    String recipient = html ? HtmlUtils.htmlEscape(mail.recipient()) : mail.recipient();
    String leave = html ? HtmlUtils.htmlEscape(leaveAddress(mail)) : leaveAddress(mail);
    return text.replace(Rendered.RECIPIENT, recipient).replace(Rendered.LEAVE, leave);
  }

  private static MimeBodyPart attachment(
      byte[] content, String type, String fileName, String description) throws MessagingException {
    var part = new MimeBodyPart();
    part.setDataHandler(new DataHandler(new ByteArrayDataSource(content, type)));
    part.setFileName(fileName);
    part.setDisposition(MimeBodyPart.ATTACHMENT);
    part.setDescription(description, UTF_8);
    part.setHeader("Content-Transfer-Encoding", "base64");
    return part;
  }

  private static MimeBodyPart part(MimeMultipart content) throws MessagingException {
    var part = new MimeBodyPart();
    part.setContent(content);
    return part;
  }

  private static MimeMultipart multipart(String subtype, OutgoingMail mail, String which)
      throws MessagingException {
    return new NamedBoundary(
        subtype,
        "=_report-%d-%s-%s".formatted(mail.id(), mail.leaveToken().substring(0, 8), which));
  }

  /** A multipart whose boundary is given rather than taken from clock and chance. */
  private static final class NamedBoundary extends MimeMultipart {

    NamedBoundary(String subtype, String boundary) throws MessagingException {
      ContentType type = new ContentType("multipart/" + subtype);
      ParameterList parameters =
          type.getParameterList() == null ? new ParameterList() : type.getParameterList();
      parameters.set("boundary", boundary);
      type.setParameterList(parameters);
      contentType = type.toString();
    }
  }
}
