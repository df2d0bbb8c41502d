package towerledger.report.delivery;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A row of the outbox with all that its message is made of.
 *
 * @param id key of the row
 * @param recipient whom it goes to
 * @param messageId name of the message, with its angle brackets; the same in every attempt
 * @param leaveToken what leaving this list is asked by
 * @param attempts how often it was tried
 * @param createdAt when it was put here
 * @param decidedAt when it was decided to send the report: the date of the message
 * @param subject subject
 * @param language language of its words
 * @param replyTo where answers go; null for the program's own setting
 * @param fileName name of the attachments without their endings
 * @param left whether the recipient has since asked to be left alone
 */
record OutgoingMail(
    long id,
    String recipient,
    String messageId,
    String leaveToken,
    int attempts,
    Instant createdAt,
    Instant decidedAt,
    String subject,
    String language,
    @Nullable String replyTo,
    String fileName,
    boolean left,
    String html,
    String plain,
    byte[] pdf,
    String csv,
    byte[] picture) {}
