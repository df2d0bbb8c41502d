package towerledger.account;

import jakarta.mail.AuthenticationFailedException;
import jakarta.mail.MessagingException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.eclipse.angus.mail.smtp.SMTPAddressFailedException;
import org.eclipse.angus.mail.smtp.SMTPSendFailedException;
import org.eclipse.angus.mail.smtp.SMTPSenderFailedException;
import org.jspecify.annotations.Nullable;
import org.springframework.mail.MailSendException;

/**
 * What came of handing a message to the relay.
 *
 * @param kind what is to be done about it
 * @param text the relay's own words, or what went wrong
 */
public record SmtpAnswer(Kind kind, String text) {

  private static final int LONGEST = 500;

  /** Codes that ask for a login or an encrypted connection: not the recipient's fault. */
  private static final Set<Integer> LOGIN = Set.of(530, 534, 535, 538);

  private static final Pattern CODE = Pattern.compile("^([245]\\d\\d)\\b");

  /** What is to be done. */
  public enum Kind {
    /** The relay has taken it over. */
    ACCEPTED,
    /** Not now: a code of 400 to 499 (RFC 5321, 4.2.1). */
    LATER,
    /** Never: a code of 500 to 599. */
    REFUSED,
    /** The relay could not be spoken to; nothing was said of this message. */
    NO_RELAY
  }

  public SmtpAnswer {
    text = text.strip().replaceAll("\\s+", " ");
    if (text.length() > LONGEST) {
      text = text.substring(0, LONGEST - 1) + "…";
    }
  }

  public static SmtpAnswer accepted() {
    return new SmtpAnswer(Kind.ACCEPTED, "accepted by the relay");
  }

  /** The answer behind a failure to send. */
  public static SmtpAnswer of(Exception failure) {
    Deque<Throwable> open = new ArrayDeque<>();
    Set<Throwable> seen = new HashSet<>();
    open.add(failure);
    SmtpAnswer answer = null;
    String trouble = words(failure);
    while (!open.isEmpty()) {
      Throwable next = open.pop();
      if (!seen.add(next)) {
        continue;
      }
      SmtpAnswer own = own(next);
      if (own != null && (answer == null || isMoreTelling(next))) {
        answer = own;
      }
      add(open, next.getCause());
      if (next instanceof MessagingException messaging) {
        // what is wrapped around it repeats it with the names of classes
        trouble = words(messaging);
        add(open, messaging.getNextException());
      }
      if (next instanceof MailSendException sending) {
        for (Map.Entry<Object, Exception> one : sending.getFailedMessages().entrySet()) {
          add(open, one.getValue());
        }
      }
    }
    return answer == null ? new SmtpAnswer(Kind.NO_RELAY, trouble) : answer;
  }

  private static void add(Deque<Throwable> open, @Nullable Throwable next) {
    if (next != null) {
      open.add(next);
    }
  }

  /** What is said of the address itself tells more than what is said of the message around it. */
  private static boolean isMoreTelling(Throwable failure) {
    return failure instanceof SMTPAddressFailedException;
  }

  private static @Nullable SmtpAnswer own(Throwable failure) {
    if (failure instanceof AuthenticationFailedException) {
      return new SmtpAnswer(Kind.NO_RELAY, "the relay refused the login: " + words(failure));
    }
    int code = 0;
    if (failure instanceof SMTPAddressFailedException address) {
      code = address.getReturnCode();
    } else if (failure instanceof SMTPSenderFailedException sender) {
      code = sender.getReturnCode();
    } else if (failure instanceof SMTPSendFailedException sending) {
      code = sending.getReturnCode();
    } else if (failure instanceof MessagingException && failure.getMessage() != null) {
      Matcher matcher = CODE.matcher(failure.getMessage());
      code = matcher.find() ? Integer.parseInt(matcher.group(1)) : 0;
    }
    if (LOGIN.contains(code)) {
      return new SmtpAnswer(Kind.NO_RELAY, words(failure));
    }
    if (code == 421) {
      return new SmtpAnswer(Kind.NO_RELAY, words(failure));
    }
    if (code >= 400 && code < 500) {
      return new SmtpAnswer(Kind.LATER, words(failure));
    }
    return code >= 500 ? new SmtpAnswer(Kind.REFUSED, words(failure)) : null;
  }

  private static String words(Throwable failure) {
    String message = failure.getMessage();
    return message == null ? failure.getClass().getSimpleName() : message;
  }
}
