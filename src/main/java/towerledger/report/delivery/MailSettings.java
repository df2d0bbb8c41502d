package towerledger.report.delivery;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;

/**
 * Who the reports come from, and where answers to them go. The relay itself is set as {@code
 * spring.mail.*}.
 *
 * @param from address they come from; without it nothing is sent
 * @param fromName name beside it
 * @param replyTo where answers go unless a customer's plan names another; null for {@code from}
 * @param publicUrl where this program is reached from outside, {@code https://…}; without it mails
 *     offer leaving by answer only
 * @param bounces the mailbox that undeliverable mail comes back to
 */
@ConfigurationProperties("towerledger.mail")
public record MailSettings(
    @Nullable String from,
    @Nullable String fromName,
    @Nullable String replyTo,
    @Nullable String publicUrl,
    @Nullable Bounces bounces) {

  /** Domain of message names while no sender is set; reserved by RFC 2606. */
  private static final String NO_DOMAIN = "tower-water-ledger.invalid";

  public MailSettings {
    from = orNull(from);
    fromName = orNull(fromName);
    replyTo = orNull(replyTo);
    publicUrl = orNull(publicUrl);
    if (publicUrl != null && !publicUrl.matches("https?://[^\\s<>]+")) {
      throw new IllegalArgumentException(
          "towerledger.mail.public-url is '%s'; give the address this program is reached at, such as https://ledger.example"
              .formatted(publicUrl));
    }
    if (publicUrl != null && publicUrl.endsWith("/")) {
      publicUrl = publicUrl.substring(0, publicUrl.length() - 1);
    }
  }

  private static @Nullable String orNull(@Nullable String text) {
    return text == null || text.isBlank() ? null : text.strip();
  }

  /** Domain of the names of messages. */
  String domain() {
    return from == null ? NO_DOMAIN : from.substring(from.indexOf('@') + 1);
  }

  /** The mailbox of undeliverable mail, if one is set. */
  Optional<Bounces> bounceMailbox() {
    return Optional.ofNullable(bounces).filter(Bounces::isSet);
  }

  /**
   * A mailbox read by IMAP.
   *
   * @param address where undeliverable mail is to come back to: the envelope sender
   * @param host its server; null for none
   * @param port its port
   * @param username login
   * @param password password
   * @param folder folder that is read
   * @param tls whether the connection is encrypted from its first byte
   */
  public record Bounces(
      @Nullable String address,
      @Nullable String host,
      @Nullable Integer port,
      @Nullable String username,
      @Nullable String password,
      @Nullable String folder,
      @Nullable Boolean tls) {

    boolean isSet() {
      return host != null && !host.isBlank() && address != null && !address.isBlank();
    }

    boolean isEncrypted() {
      return tls == null || tls;
    }

    /** Without the password. */
    @Override
    public String toString() {
      return "bounces to %s, read at %s as %s".formatted(address, host, username);
    }

    String folderOrInbox() {
      return folder == null || folder.isBlank() ? "INBOX" : folder;
    }
  }
}
