package towerledger;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.Address;
import jakarta.mail.MessagingException;
import jakarta.mail.internet.MimeMessage;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.awaitility.Awaitility;

/** One real mail server for the whole test run; every application under test sends to it. */
public final class MailServer {

  private static GreenMail server;

  private MailServer() {}

  static synchronized int port() {
    return server().getSmtp().getPort();
  }

  private static synchronized GreenMail server() {
    if (server == null) {
      server = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
      server.start();
      Runtime.getRuntime().addShutdownHook(new Thread(server::stop));
    }
    return server;
  }

  /** The letters an address has got so far, the oldest first. */
  public static List<MimeMessage> lettersTo(String address) {
    return Arrays.stream(server().getReceivedMessages())
        .filter(letter -> isFor(letter, address))
        .toList();
  }

  /** The text of the newest letter to an address, once there are so many. */
  public static String awaitLetter(String address, int count) {
    Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> lettersTo(address).size() >= count);
    return GreenMailUtil.getBody(lettersTo(address).get(count - 1)).replace("=\r\n", "");
  }

  private static boolean isFor(MimeMessage letter, String address) {
    try {
      return Arrays.stream(letter.getAllRecipients())
          .map(Address::toString)
          .anyMatch(address::equals);
    } catch (MessagingException e) {
      throw new IllegalStateException(e);
    }
  }
}
